"""Everything of a person: what there is, taking it away, and the proof that it is gone."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from builder.course.names import offer, suggest
from builder.errors import BuilderError
from builder.publishing.forgetting.mentions import Wanted, find_mention, list_files, want
from builder.records.forgetting import Change, list_changes, list_names, make_changes
from builder.records.journal import hold_folder
from builder.records.told_of_people import read_told


@dataclass(frozen=True, slots=True)
class Forgetting:
    """What is to be done."""

    folder: Path
    coach: Path
    person_id: str
    wanted: Wanted
    changes: tuple[Change, ...]
    """In the order in which they are made; the row of the person is the last."""
    by_hand: tuple[str, ...]
    """Files, with the spot, that name the person in words and can't be changed by a program."""


def plan_forgetting(folder: Path, coach: Path, person_id: str) -> Forgetting:
    """Return what there is of a person; BuilderError where there is nothing at all."""
    wanted = want(person_id, list_names(folder, person_id))
    records = list_changes(folder, person_id)
    changes = (*_list_printed(coach, wanted), *_list_left_over(folder, wanted), *records)
    by_hand = tuple(_list_by_hand(folder, wanted, changes))
    if not changes and not by_hand:
        ids = read_told(folder).person_ids
        raise BuilderError(
            f'nothing of "{person_id}" is in "{folder}" or "{coach}"',
            suggest(person_id, ids) or offer(sorted(ids)),
        )
    return Forgetting(folder, coach, person_id, wanted, changes, by_hand)


def forget(shown: Forgetting) -> tuple[str, ...]:
    """Take away what was shown; return where the person is still named, which should be nowhere.

    BuilderError where the files are not what they were when it was shown.
    """
    if shown.by_hand:
        raise BuilderError("somebody is named in words", "change these by hand first")
    with hold_folder(shown.folder):
        if plan_forgetting(shown.folder, shown.coach, shown.person_id).changes != shown.changes:
            raise BuilderError("the files have changed since", "run this again")
        make_changes(shown.changes)
        return tuple(
            f"{path}: {spot}"
            for place in (shown.folder, shown.coach)
            for path in list_files(place)
            if (spot := find_mention(shown.wanted, path.name, path.read_bytes()))
        )


def write_forgetting(plan: Forgetting) -> str:
    """Say what would go, and what has to be changed by hand first."""
    lines = [f'What there is of "{plan.person_id}":']
    lines += [f"- {change.path}: {change.what}" for change in plan.changes]
    if plan.by_hand:
        lines += ["", "Named in words. Others may be meant too, so change these by hand first:"]
        lines += [f"- {place}" for place in plan.by_hand]
    return "\n".join(lines)


def _list_printed(coach: Path, wanted: Wanted) -> Iterator[Change]:
    """Yield what was printed for coaches and names the person: it can be made anew."""
    for path in list_files(coach):
        if find_mention(wanted, path.name, path.read_bytes()):
            yield Change(path, "the file goes; print it anew when you need it", None)


def _list_left_over(folder: Path, wanted: Wanted) -> Iterator[Change]:
    """Yield half-written files that a killed program left behind."""
    for path in list_files(folder):
        if path.name.startswith(".") and find_mention(wanted, path.name, path.read_bytes()):
            yield Change(path, "the file goes; a program that was killed left it", None)


def _list_by_hand(folder: Path, wanted: Wanted, changes: tuple[Change, ...]) -> Iterator[str]:
    """Yield where the person would still be named, after all that a program can do."""
    new = {change.path: change.content for change in changes}
    for path in list_files(folder):
        content = new[path] if path in new else path.read_bytes()
        spot = "" if content is None else find_mention(wanted, path.name, content)
        if spot:
            yield f"{path}: {spot}"
