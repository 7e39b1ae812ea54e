"""Citations: where a number of a result comes from, carried by the result itself."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Citation:
    """A published source, or our own rule."""

    key: str
    authors: str
    year: int | None
    title: str
    where: str

    @property
    def is_ours(self) -> bool:
        """Tell whether no published source stands behind it."""
        return self.year is None

    def __str__(self) -> str:
        """Return it as a line of a list of sources."""
        if self.is_ours:
            return f"{self.title} (ours, no published source)"
        return f"{self.authors} {self.year}: {self.title}. {self.where}"


def ours(key: str, rule: str) -> Citation:
    """Return the citation of a rule of our own."""
    return Citation(key, "", None, rule, "")
