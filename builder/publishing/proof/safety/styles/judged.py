"""Which properties count for whether words are seen, whatever way they are written."""

from functools import lru_cache

from builder.publishing.proof.safety.styles.longhands import list_longhands
from builder.publishing.proof.safety.styles.plain import JUDGES

WORKED_OUT = frozenset(
    {"all", "background-color", "background-image", "color", "font-family", "font-size"}
    | {"opacity", "overflow-x", "overflow-y", "visibility", "-webkit-text-fill-color"}
)
"""Those whose values are worked out rather than held against what is plain."""


@lru_cache(maxsize=1024)
def is_judged(name: str) -> bool:
    """Tell whether a property sets anything that counts."""
    return any(each in JUDGES or each in WORKED_OUT for each, _ in list_longhands(name, "0"))
