"""Typefaces that show letters as letters, wherever they are installed."""

import re

_KNOWN = frozenset(
    {"", "initial", "serif", "sans-serif", "monospace", "system-ui", "ui-serif", "ui-sans-serif"}
    | {"ui-monospace", "ui-rounded", "-apple-system", "blinkmacsystemfont", "tempoleaf sans"}
    | {"source sans 3", "source sans pro", "source serif 4", "source code pro", "roboto"}
    | {"roboto mono", "roboto slab", "noto sans", "noto serif", "open sans", "lato", "inter"}
    | {"fira sans", "ubuntu", "cantarell", "oxygen", "dejavu sans", "liberation sans", "segoe ui"}
    | {"arial", "helvetica", "helvetica neue", "verdana", "tahoma", "trebuchet ms", "calibri"}
    | {"cambria", "candara", "georgia", "times", "times new roman", "palatino", "garamond"}
    | {"book antiqua", "baskerville", "optima", "avenir", "avenir next", "gill sans", "futura"}
    | {"sfmono-regular", "sf pro text", "sf mono", "consolas", "menlo", "monaco", "courier"}
    | {"courier new", "lucida grande", "lucida sans unicode", "atkinson hyperlegible"}
)
"""Common families for texts; others may be signs, or blank. Ours."""
_QUOTES = re.compile(r"[\"']")


def is_for_texts(family: str) -> bool:
    """Tell whether all families of a list, in lower case, are known to show letters."""
    names = (" ".join(_QUOTES.sub(" ", name).split()) for name in family.split(","))
    return all(name in _KNOWN for name in names)
