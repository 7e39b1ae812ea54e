"""Cautions on cards of no site: whether everybody can see them, asked once of the same bytes."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass

from builder import rules
from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.findings import Finding
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.run import PaperRun, Shelf
from builder.publishing.cards.words import is_caution, list_wanted_words
from builder.work.digest import digest
from builder.work.share import share
from builder.work.tool import digest_tool

_SEEN = b"seen"


def find_hidden_cautions(
    course: Course,
    lessons: Sequence[Lesson],
    runs: Sequence[PaperRun],
    audience: Audience,
    shelf: Shelf,
) -> tuple[Finding, ...]:
    """Report cautions that stand on written cards, and that nobody can see there.

    A site is looked at as a whole when it is finished (``proof/safety``); these cards are in none.
    The shelf remembers the very bytes on which all could be seen.
    """
    papers = [run.paper for run in runs]
    faces = face_cards(course, lessons, audience, papers) if papers else {}
    looks = [
        _Look(run.read_card(lesson.id), lesson, face)
        for run in runs
        for lesson, face in zip(lessons, faces[run.paper.id], strict=True)
    ]
    stale = [look for look in looks if shelf.get(look.key) is None]
    found = share(_find_hidden, stale)
    for look, faults in zip(stale, found, strict=True):
        if not faults:
            shelf.put(look.key, _SEEN)
    return tuple(fault for faults in found for fault in faults)


@dataclass(frozen=True, slots=True)
class _Look:
    """A card that was written, and what should be seen on it."""

    card: bytes
    lesson: Lesson
    face: CardFace

    @property
    def cautions(self) -> dict[str, str]:
        """Return the words of notices and the caution, by their names."""
        wanted = list_wanted_words(self.face)
        return {name: words for name, words in wanted.items() if is_caution(name)}

    @property
    def key(self) -> str:
        """Return the key of the tool, the words and the bytes."""
        card = hashlib.sha256(self.card).hexdigest()
        return digest("seen", digest_tool(), repr(self.cautions), card)


def _find_hidden(look: _Look) -> list[Finding]:
    # Loaded here, because a run that finds a fault before it prints has no work for it.
    from builder.publishing.proof.safety.printed import find_unseen_words  # noqa: PLC0415

    lesson, paper = look.lesson, look.face.paper
    return [
        rules.NOTICE_UNSEEN.at(
            lesson.at("title"),
            f'the {name} of "{lesson.id}" can\'t be read on its {paper.title} card: {lack}',
            "take the card's file away, and report it as a fault of the tool",
        )
        for name, lack in find_unseen_words(look.card, look.cautions).items()
    ]
