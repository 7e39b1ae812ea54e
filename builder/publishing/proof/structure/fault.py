"""What keeps a PDF from being read without seeing it, as a value that travels between processes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.errors import BuilderError
from builder.findings import Finding, Place, Rule
from builder.rules import RULES_BY_ID

_AGAIN = "make it again, and report it as a fault of the tool if it stays"


@dataclass(frozen=True, slots=True)
class Fault:
    """One fault of a finished PDF."""

    rule: Rule
    fact: str

    def spell(self) -> tuple[str, str]:
        """Return the fault as plain words, for a cache."""
        return self.rule.id, self.fact


def read_faults(spelled: Sequence[Sequence[str]]) -> tuple[Fault, ...]:
    """Return the faults that ``spell`` spelled."""
    return tuple(Fault(RULES_BY_ID[rule], fact) for rule, fact in spelled)


def place_faults(faults: Sequence[Fault], name: str, place: Place) -> Iterator[Finding]:
    """Yield the faults of a PDF, which is called so, as findings at a place."""
    for fault in faults:
        yield fault.rule.at(place, f"{name}: {fault.fact}", _AGAIN)


def stop_on_faults(faults: Sequence[Fault], name: str) -> None:
    """Stop where a PDF has faults and no lesson is to blame."""
    if not faults:
        return
    first, more = faults[0], len(faults) - 1
    others = f" and {more} more like it" if more else ""
    raise BuilderError(f"{name}: {first.rule.id} {first.rule.name}: {first.fact}{others}", _AGAIN)
