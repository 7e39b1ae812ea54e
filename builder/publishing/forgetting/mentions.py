"""Where a person is named: read from the files themselves, whatever kind they are."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from builder.publishing.proof.privacy.contents import list_pieces
from builder.publishing.proof.privacy.faults import fold_piece
from builder.publishing.proof.privacy.letters import Folded, fold
from builder.publishing.proof.privacy.piece import Piece, UnreadableError
from builder.records.forgetting import Remainder
from builder.records.journal import LOCK

_LONG_NAME = 8
"""Letters of a name that don't come up by chance where spaces are left out (ours)."""
_LONGEST_SAID = 120


@dataclass(frozen=True)
class Wanted:
    """Who is looked for: the words of an id, and those of names."""

    person_id: tuple[str, ...]
    names: tuple[tuple[str, ...], ...]

    def stands_in(self, text: Folded) -> bool:
        """Tell whether a text has the id, or a whole name in either order."""
        return text.has_row(self.person_id) or any(
            self._has_name(text, name) for name in self.names
        )

    def _has_name(self, text: Folded, name: tuple[str, ...]) -> bool:
        orders = dict.fromkeys((name, (*name[1:], name[0])))
        if len(name) > 1 and len("".join(name)) >= _LONG_NAME:
            return any("".join(order) in text.letters for order in orders)
        return any(text.has_row(order) for order in orders)


def want(person_id: str, names: tuple[str, ...]) -> Wanted:
    """Make what is looked for of an id and names."""
    return Wanted(fold(person_id).words, tuple(fold(name).words for name in names))


def list_mentions(
    wanted: Wanted, folder: Path, path: Path, content: bytes | None = None
) -> Iterator[Remainder]:
    """Yield each place in a file of a folder, or in its name, that names a person."""
    if any(wanted.stands_in(fold(part)) for part in path.relative_to(folder).parts):
        yield Remainder(path, "1", "it is named after the person, or its folder is")
    try:
        for piece in list_pieces(path.name, path.read_bytes() if content is None else content):
            if _names(wanted, piece):
                yield from _list_spots(wanted, path, piece)
    except UnreadableError as error:
        yield Remainder(path, "1", f"it can't be opened ({error}), so look yourself", is_sure=False)


def list_files(folder: Path) -> Iterator[Path]:
    """Yield every file of a folder; hidden folders, such as those of backups, are left alone."""
    for path in sorted(folder.rglob("*")):
        inside = path.relative_to(folder).parts
        is_hidden = any(part.startswith(".") for part in inside[:-1])
        if path.is_file() and not is_hidden and path.name != LOCK:
            yield path


def _names(wanted: Wanted, piece: Piece) -> bool:
    return any(wanted.stands_in(text) for text in fold_piece(piece))


def _list_spots(wanted: Wanted, path: Path, piece: Piece) -> Iterator[Remainder]:
    lines = [] if piece.spot or piece.is_code else piece.text.splitlines()
    found = [
        Remainder(path, str(number), f'"{line.strip()[:_LONGEST_SAID]}"')
        for number, line in enumerate(lines, 1)
        if _names(wanted, replace(piece, text=line))
    ]
    yield from found or [Remainder(path, "1", f"in {piece.spot or 'its text'}")]
