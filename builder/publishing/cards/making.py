"""Cards of lessons on all papers of a run: fetched from the cache, or printed by workers."""

from collections.abc import Iterator, Sequence
from concurrent.futures import Executor
from dataclasses import dataclass
from functools import partial

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.findings import find_card_faults
from builder.publishing.cards.keys import key_card, key_outline
from builder.publishing.cards.outline import Outliner
from builder.publishing.cards.record import CardRecord
from builder.publishing.cards.run import PaperRun, Shelf
from builder.publishing.cards.window import Job, Loss, run_in_turn, run_one_by_one
from builder.publishing.cards.worker import run_batch
from builder.work.progress import SILENT, Progress

_CARDS_PER_BATCH = 6
_BETWEEN = b"\n"


@dataclass(frozen=True, slots=True)
class _Card:
    """A card of a lesson: its face, its key, and what the cache has of it."""

    run: PaperRun
    face: CardFace
    key: str
    known: CardRecord | None


@dataclass(frozen=True, slots=True)
class _Lesson:
    """A lesson of which the cache doesn't know all cards by its outline."""

    lesson: Lesson
    outline_key: str
    cards: tuple[_Card, ...]

    @property
    def stale(self) -> tuple[CardFace, ...]:
        """Return the faces of the cards that must be printed."""
        return tuple(card.face for card in self.cards if card.known is None)


@dataclass(frozen=True)
class CardMaker:
    """Makes the cards of lessons on all papers of a run."""

    course: Course
    audience: Audience
    runs: tuple[PaperRun, ...]
    shelf: Shelf
    outliner: Outliner
    progress: Progress = SILENT

    def make(self, lessons: Sequence[Lesson], pool: Executor) -> list[Finding]:
        """Write every card that is sound, and return what is wrong with the others."""
        faults: list[Finding] = []
        made, total = 0, len(lessons) * len(self.runs)
        self.progress.tell("cards", 0, total)
        print_one_by_one = partial(_print_one_by_one, pool)
        jobs = self._list_jobs(lessons, faults)
        for batch, printed in run_in_turn(pool, jobs, on_loss=print_one_by_one):
            fresh = iter(printed)
            for each in batch:
                faults += self._finish(each, fresh)
            made += len(printed)
            done = sum(len(run.keys) for run in self.runs)
            self.progress.tell("cards", done, total, max(done - made, 0))
        return faults

    def _list_jobs(
        self, lessons: Sequence[Lesson], faults: list[Finding]
    ) -> Iterator[Job[list[_Lesson], tuple[CardFace, ...], tuple[CardRecord, ...]]]:
        """Yield batches of what must be printed; finish at once what needs no printing."""
        batch: list[_Lesson] = []
        faces: list[CardFace] = []
        for lesson in lessons:
            opened = self._open(lesson)
            if opened is None:
                continue
            if not opened.stale:
                faults += self._finish(opened, iter(()))
                continue
            batch.append(opened)
            faces += opened.stale
            if len(faces) >= _CARDS_PER_BATCH:
                yield Job(batch, run_batch, tuple(faces))
                batch, faces = [], []
        if batch:
            yield Job(batch, run_batch, tuple(faces))

    def _open(self, lesson: Lesson) -> _Lesson | None:
        """Return what must be done for a lesson; None where its cards were all in the cache."""
        papers = [run.paper for run in self.runs]
        outline_key = key_outline(self.outliner.outline(lesson), self.audience, papers)
        if self._take_known(lesson, outline_key):
            return None
        faces = face_cards(self.course, [lesson], self.audience, papers)
        cards = []
        for run in self.runs:
            (face,) = faces[run.paper.id]
            key = key_card(face)
            cards.append(_Card(run, face, key, self._fetch(key)))
        return _Lesson(lesson, outline_key, tuple(cards))

    def _take_known(self, lesson: Lesson, outline_key: str) -> bool:
        """Write the cards of a lesson without a fault, if the cache knows them by its outline."""
        keys = (self.shelf.get(outline_key) or b"").decode().split()
        records = [record for key in keys if (record := self._fetch(key)) is not None]
        if len(records) != len(self.runs):
            return False
        for run, key, record in zip(self.runs, keys, records, strict=True):
            run.take(lesson.id, key, record)
        return True

    def _fetch(self, key: str) -> CardRecord | None:
        piece = self.shelf.get(key)
        return None if piece is None else CardRecord.from_bytes(piece)

    def _finish(self, opened: _Lesson, printed: Iterator[CardRecord]) -> list[Finding]:
        """Write what is sound of a lesson, keep it in the cache and return what is wrong."""
        faults: list[Finding] = []
        for card in opened.cards:
            record = card.known or next(printed)
            card.run.take(opened.lesson.id, card.key, record)
            if card.known is None and record.is_sound(card.run.paper.floor_points):
                self.shelf.put(card.key, record.to_bytes())
            faults += find_card_faults(opened.lesson, card.face, record)
        if not faults:
            keys = (card.key.encode() for card in opened.cards)
            self.shelf.put(opened.outline_key, _BETWEEN.join(keys))
        return faults


def _print_one_by_one(
    pool: Executor, batch: Sequence[_Lesson], reason: str
) -> tuple[CardRecord, ...]:
    """Print the cards of a lost batch each by itself, so that only those at fault are lost."""
    faces = [face for each in batch for face in each.stale]
    return tuple(
        CardRecord.of_lost(printed.reason) if isinstance(printed, Loss) else printed
        for printed in run_one_by_one(pool, run_batch, faces, reason)
    )
