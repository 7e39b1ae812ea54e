"""Language tags as BCP 47 has them."""


def root_of(tag: str) -> str:
    """Return the language itself without script and country: ``es`` of ``es-MX``."""
    return tag.partition("-")[0].lower()
