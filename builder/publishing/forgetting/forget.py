"""Everything of a person: what there is, taking it away, and the proof that it is gone."""

from collections.abc import Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from builder.course.names import offer, suggest
from builder.errors import BuilderError
from builder.publishing.forgetting.mentions import Wanted, list_files, list_mentions, want
from builder.records.forgetting import Change, Remainder, list_changes, list_names, make_changes
from builder.records.journal import hold_folder
from builder.records.told_of_people import read_told
from builder.work.whole import MARK

_GROUP = ("group.html", "group.pdf")
"""The only files that are printed outside folders of their own."""


@dataclass(frozen=True, slots=True)
class Forgetting:
    """What is to be done."""

    folder: Path
    coach: Path
    person_id: str
    wanted: Wanted
    changes: tuple[Change, ...]
    """In the order in which they are made; the row of the person is the last."""
    by_hand: tuple[Remainder, ...]
    """What names the person in words, or can't be changed by a program."""


def plan_forgetting(folder: Path, coach: Path, person_id: str) -> Forgetting:
    """Return what there is of a person; BuilderError where there is nothing at all."""
    wanted = want(person_id, list_names(folder, person_id))
    found = (
        *_list_printed(coach, wanted),
        *_list_left_over(folder, wanted),
        *list_changes(folder, person_id),
    )
    changes = tuple(each for each in found if isinstance(each, Change))
    uncut = [each for each in found if isinstance(each, Remainder)]
    by_hand = (*uncut, *_list_said(folder, wanted, changes, uncut))
    if not any(each.is_sure for each in by_hand) and not changes:
        ids = read_told(folder).person_ids
        raise BuilderError(
            f'nothing of "{person_id}" is in "{folder}" or "{coach}"',
            suggest(person_id, ids) or offer(sorted(ids)),
        )
    return Forgetting(folder, coach, person_id, wanted, changes, by_hand)


def forget(shown: Forgetting) -> tuple[Remainder, ...]:
    """Take away what was shown; return where the person is still named, to be changed by hand.

    BuilderError where the files are not what they were when it was shown.
    """
    with hold_folder(shown.folder):
        if plan_forgetting(shown.folder, shown.coach, shown.person_id) != shown:
            raise BuilderError("the files have changed since", "run this again")
        printed = [each for each in shown.changes if each.path.is_relative_to(shown.coach)]
        make_changes(printed)
        _clear_folders(shown.coach)
        make_changes([each for each in shown.changes if each not in printed])
        told = {each.path for each in shown.by_hand}
        left = (
            each
            for place in (shown.folder, shown.coach)
            for path in list_files(place)
            if path not in told
            for each in list_mentions(shown.wanted, place, path)
        )
        return (*shown.by_hand, *left)


def write_forgetting(plan: Forgetting) -> str:
    """Say what would go, and what has to be changed by hand."""
    lines = [f'What there is of "{plan.person_id}":']
    lines += [f"- {change.path}: {change.what}" for change in plan.changes]
    if plan.by_hand:
        lines += ["", "For you to change by hand, because a program can't do it safely:"]
        lines += [f"- {place}" for place in plan.by_hand]
    return "\n".join(lines)


def _list_printed(coach: Path, wanted: Wanted) -> Iterator[Change | Remainder]:
    """Yield what names the person in the coach's folder: what was printed can be made anew.

    The marks that say so go last, for a run that is killed and done again.
    """
    for path in sorted(list_files(coach), key=lambda path: path.name == MARK):
        found = tuple(list_mentions(wanted, coach, path))
        is_made = (path.parent / MARK).is_file() or (path.name in _GROUP and path.parent == coach)
        if is_made and any(each.is_sure for each in found):
            yield Change(path, "the file goes; print it anew when you need it", None)
        else:
            yield from found


def _list_left_over(folder: Path, wanted: Wanted) -> Iterator[Change]:
    """Yield half-written files that a killed program left behind."""
    for path in list_files(folder):
        if path.name.startswith(".") and any(list_mentions(wanted, folder, path)):
            yield Change(path, "the file goes; a program that was killed left it", None)


def _list_said(
    folder: Path, wanted: Wanted, changes: Sequence[Change], uncut: Sequence[Remainder]
) -> Iterator[Remainder]:
    """Yield where the person would still be named, after all that a program can do."""
    new = {change.path: change.content for change in changes}
    known = {each.path for each in uncut}
    for path in list_files(folder):
        content = new[path] if path in new else path.read_bytes()
        if content is not None and path not in known:
            yield from list_mentions(wanted, folder, path, content)


def _clear_folders(coach: Path) -> None:
    """Take away folders that are empty now, since they may be named after the person."""
    for path in sorted(coach.rglob("*"), reverse=True):
        if path.is_dir() and not path.is_symlink():
            with suppress(OSError):
                path.rmdir()
