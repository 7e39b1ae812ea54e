"""What can't be read on the things that show a lesson, as findings."""

from collections.abc import Callable, Iterator

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.cards.words import NOTICE, is_caution
from builder.publishing.proof.safety.evidence import (
    Artefact,
    EditionProof,
    Kind,
    LessonProof,
)
from builder.publishing.proof.safety.look import UNMEASURED, Look, Sightings
from builder.publishing.proof.safety.sighting import Lack

_ENOUGH = (UNMEASURED, Lack.PALE)
Locate = Callable[[LessonProof, Artefact, str], Place]
"""Says where a finding about wanted words of a lesson, by their name, is told."""


def list_looks(edition: EditionProof) -> tuple[Look, ...]:
    """Return what there is to look at in an edition."""
    return tuple(
        Look(artefact, edition.list_wanted(lesson)) for lesson, artefact in edition.list_artefacts()
    )


def find_unseen(
    edition: EditionProof, seen: list[Sightings], locate: Locate, cure: str
) -> Iterator[Finding]:
    """Report every word that must be seen and wasn't; ``seen`` is in the order of the looks."""
    for (lesson, artefact), sightings in zip(edition.list_artefacts(), seen, strict=True):
        for name in edition.list_wanted(lesson):
            lack = _find_lack(name, sightings)
            if lack is None:
                continue
            rule = rules.NOTICE_UNSEEN if is_caution(name) else rules.LESSON_UNSEEN
            fact = (
                f'{name_words(name)} of "{lesson.id}" can\'t be read in {name_artefact(artefact)}'
            )
            yield rule.at(locate(lesson, artefact, name), f"{fact}: {lack.value}", cure)


def _find_lack(name: str, sightings: Sightings) -> Lack | None:
    """Return what wanted words lack; small print is enough to tell which lesson it is."""
    sighting = sightings.get(name)
    lack = sighting.lack if sighting else Lack.ABSENT
    return None if lack in _ENOUGH and not is_caution(name) else lack


def name_words(name: str) -> str:
    """Say which words are meant, by their name."""
    if name.startswith(NOTICE):
        return f'the notice "{name.removeprefix(NOTICE)}"'
    return f"the {name}"


def name_artefact(artefact: Artefact) -> str:
    """Say which part of which file is meant."""
    if artefact.kind is Kind.CHAPTER:
        return f'"{artefact.file}", chapter {artefact.chapter}'
    if artefact.pages is None:
        return f'"{artefact.file}"'
    first, last = artefact.pages.first, artefact.pages.last
    return f'"{artefact.file}", page {first}{f" to {last}" if last > first else ""}'
