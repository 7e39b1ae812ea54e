"""A number with its noun."""


def count(number: int, one: str, many: str = "") -> str:
    """Write a number with its noun; many of them take an s unless they are given."""
    return f"{number} {one if number == 1 else many or f'{one}s'}"
