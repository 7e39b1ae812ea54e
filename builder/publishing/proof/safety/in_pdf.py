"""Wanted words on a finished PDF: where they are seen, or why they count as missing.

What a page shows is drawn, and so are the words alone in the tool's own type, letter by letter
where the PDF says they stand. Both pictures are held against each other: a letter is seen where
its dots have enough contrast to its ground, and the ground to the letter. So words count as seen
only where a reader sees them, whatever the file says: nothing that lies over them deceives, nor
does a font that shows other letters than the text tells. Words in another typeface than ours
can't be compared and count as absent, as do words in notes laid over a page, because many
printers leave those out.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import pypdfium2  # type: ignore[import-untyped]

from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.read_back import fold_text
from builder.publishing.proof.safety.own_type import open_own_type
from builder.publishing.proof.safety.pdf_facts import PageFacts, read_facts
from builder.publishing.proof.safety.pdf_frame import Rectangle
from builder.publishing.proof.safety.pdf_lacks import find_lack
from builder.publishing.proof.safety.pdf_letters import Letter, LetterPage
from builder.publishing.proof.safety.pdf_order import is_in_order
from builder.publishing.proof.safety.pdf_view import PageView, Run
from builder.publishing.proof.safety.sighting import Lack, Place, Sighting

_MOST_SPOTS = 100
"""Spots of the same words that are looked at; a pack has fewer pages."""
_DECIMALS = 2
"""Of sizes in points and of contrasts."""
_UNSEEN = 1.0
"""The contrast of what isn't seen (WCAG 2.2: from 1 to 21)."""
_BEST_FIRST = (
    *(None, Lack.PALE, Lack.SMALL, Lack.COVERED),
    *(Lack.HIDDEN, Lack.OUTSIDE, Lack.ABSENT),
)

Spot = Mapping[int, Run]
"""Where words stand, by the number of the page from 0; nearly always on one."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of some pages of a PDF."""

    pages: slice
    """Numbered from 0."""
    seen: Mapping[str, str]
    """Words that a reader must see, by name."""
    said: Mapping[str, str]
    """Words that need but be said by the text, however they look."""


@dataclass(frozen=True, slots=True)
class Answer:
    """What some pages of a PDF show."""

    seen: dict[str, Sighting]
    said: frozenset[str]
    """Names of those that the text says."""


def sight_in_parts(content: bytes, parts: Sequence[Asked]) -> list[Answer]:
    """Find what is asked of each of several parts of a PDF, and nowhere else in it.

    Words are found by name, at the best of the places where they stand, and compared as
    ``fold_text`` leaves them; words without a letter are absent. Raises PdfUnsoundError for a file
    that is no PDF or a damaged one.
    """
    facts = read_facts(content)
    try:
        document = pypdfium2.PdfDocument(content)
    except pypdfium2.PdfiumError as error:
        raise PdfUnsoundError(str(error)) from error
    try:
        numbers = range(len(facts))
        return [_Book(document, facts, numbers[part.pages]).answer(part) for part in parts]
    except pypdfium2.PdfiumError as error:
        raise PdfUnsoundError(str(error)) from error
    finally:
        document.close()


@dataclass(frozen=True, slots=True)
class _Part:
    """The words on one page of a spot, judged."""

    place: Place
    lack: Lack | None


class _Book:
    """Some pages of a PDF, drawn when they are first looked at."""

    def __init__(
        self, document: pypdfium2.PdfDocument, facts: tuple[PageFacts, ...], numbers: range
    ) -> None:
        self._document = document
        self._facts = facts
        self._pages = {number: LetterPage(document[number]) for number in numbers}
        self._views: dict[int, PageView] = {}
        self._runs: dict[int, dict[Run, None]] = {}

    def answer(self, asked: Asked) -> Answer:
        """Find all that is asked."""
        text = _Text(self._pages)
        spots = {name: list(text.find(fold_text(words))) for name, words in asked.seen.items()}
        told = (name for name, words in asked.said.items() if any(text.find(fold_text(words))))
        for spot in (spot for found in spots.values() for spot in found):
            for number, run in spot.items():
                self._runs.setdefault(number, {})[run] = None
        try:
            seen = {name: self._sight(name, found) for name, found in spots.items()}
            return Answer(seen, frozenset(told))
        finally:
            for page in self._pages.values():
                page.close()

    def _sight(self, name: str, spots: list[Spot]) -> Sighting:
        best = Sighting(name, None, Lack.ABSENT)
        for spot in spots:
            parts = [self._judge(number, run) for number, run in spot.items()]
            worst = max(parts, key=lambda part: _BEST_FIRST.index(part.lack))
            found = Sighting(name, _join(parts), worst.lack)
            if best.place is None or _rank(found) < _rank(best):
                best = found
            if best.lack is None:
                break
        return best

    def _judge(self, number: int, run: Run) -> _Part:
        facts = self._facts[number]
        if number not in self._views:
            runs = self._runs[number]
            page = self._pages[number]
            self._views[number] = PageView(page, runs, has_variants=facts.has_variants)
        view = self._views[number]
        letters = view.list_letters(run)
        lack = _find_plain_lack(view, letters, facts)
        contrast = _UNSEEN
        if lack is None:
            inks = view.measure(letters)
            unread = [letter for letter, ink in inks.items() if not ink.is_read]
            contrast = min(ink.contrast for ink in inks.values())
            lack = find_lack(self._document, number, view, run, unread) if unread else None
        whole = Rectangle.around([letter.box for letter in letters])
        box = view.page.frame.measure(whole, facts.unit)
        size = round(_find_smallest(letters, facts), _DECIMALS)
        return _Part(Place(number + 1, box, "", size, round(contrast, _DECIMALS)), lack)


def _find_plain_lack(view: PageView, letters: tuple[Letter, ...], facts: PageFacts) -> Lack | None:
    """Return what letters lack by what their page tells of them, before it is drawn."""
    if not all(view.page.frame.holds(letter.box) for letter in letters):
        return Lack.OUTSIDE
    if not facts.is_plain or not all(letter.is_drawn for letter in letters):
        return Lack.HIDDEN
    if not all(open_own_type().has(letter) for letter in letters) or not is_in_order(letters):
        return Lack.ABSENT
    notes = [view.page.frame.place(note) for note in facts.bare_notes]
    if any(letter.box.meet(note).area for letter in letters for note in notes):
        return Lack.COVERED
    if view.is_overset(letters):
        return Lack.COVERED
    return Lack.SMALL if _find_smallest(letters, facts) < facts.floor_points else None


def _find_smallest(letters: tuple[Letter, ...], facts: PageFacts) -> float:
    return min(letter.size_points for letter in letters) * facts.unit


def _rank(sighting: Sighting) -> int:
    return _BEST_FIRST.index(sighting.lack)


def _join(parts: list[_Part]) -> Place:
    """Return the first part's place, with the smallest type and contrast of all."""
    first = parts[0].place
    return Place(
        first.page,
        first.box,
        first.spot,
        min(part.place.size_points for part in parts),
        min(part.place.contrast for part in parts),
    )


class _Text:
    """Pages as one folded text, with where each of its letters stands."""

    def __init__(self, pages: Mapping[int, LetterPage]) -> None:
        letters: list[str] = []
        self._at: list[tuple[int, int]] = []
        for number, page in pages.items():
            for letter, at in page.list_folded():
                letters.append(letter)
                self._at.append((number, at))
        self._text = "".join(letters)

    def find(self, words: str) -> Iterator[Spot]:
        """Yield where folded words stand, in the order of reading."""
        start = self._text.find(words) if words else -1
        for _ in range(_MOST_SPOTS):
            if start < 0:
                return
            spot: dict[int, Run] = {}
            for number, at in self._at[start : start + len(words)]:
                first, _last = spot.get(number, (at, at))
                spot[number] = (first, at)
            yield spot
            start = self._text.find(words, start + 1)
