"""Short names of people that still tell them apart."""

from collections.abc import Mapping, Sequence


def shorten_names(people: Sequence[tuple[str, str]]) -> Mapping[str, str]:
    """Return the first word of each name, with as much more as tells it from the others.

    Whoever shares their first word gets letters of their last one; who shares these as well keeps
    the whole name.
    """
    steps = {person: _list_steps(name) for person, name in people}
    return {
        person: next((step for step in own if not _is_shared(step, person, steps)), name)
        for (person, name), own in zip(people, steps.values(), strict=True)
    }


def _list_steps(name: str) -> tuple[str, ...]:
    """Return ever longer forms of a name, the whole of it left out."""
    first, *others = name.split()
    if not others:
        return (first,)
    last = others[-1]
    return (first, *(f"{first} {last[:length]}." for length in range(1, len(last))))


def _is_shared(step: str, person: str, steps: Mapping[str, Sequence[str]]) -> bool:
    others = (own for other, own in steps.items() if other != person)
    return any(step.casefold() == each.casefold() for own in others for each in own)
