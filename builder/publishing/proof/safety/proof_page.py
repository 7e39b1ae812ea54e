"""The page that tells people where each caution of each lesson was found."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from markupsafe import Markup

from builder.course.course import Colours
from builder.language import Language, language_of
from builder.publishing.cards.words import CAUTION, NOTICE
from builder.publishing.environment import open_templates
from builder.publishing.letters import write_faces
from builder.publishing.pages.assets import write_colours
from builder.publishing.pages.links import HOME, PROOF, Site
from builder.publishing.proof.safety.evidence import (
    Artefact,
    EditionProof,
    Kind,
    LessonProof,
    Seen,
)
from builder.publishing.proof.safety.file import PROOF_FILE
from builder.publishing.site.policy import add_closed_policy
from builder.resources import find_templates
from builder.sums.paper import PAPERS

_FOLDER = "proof"
_TEMPLATE = "proof.html.j2"
Digest = Callable[[str], str]


@dataclass(frozen=True, slots=True)
class _Shown:
    """One file that shows a lesson, with a line for each caution on it."""

    name: str
    href: str
    digest: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _LessonLines:
    """What the page says of one lesson."""

    id: str
    title: str
    traits: str
    waived: tuple[str, ...]
    shown: tuple[_Shown, ...]


def write_proof_page(
    site: Site, edition: EditionProof, sources: Mapping[str, str], digest: Digest
) -> str:
    """Return the page as HTML that is whole in itself; ``digest`` tells that of a site's file."""
    language = language_of(edition.language)
    used = {path for lesson in edition.lessons for path in lesson.sources}
    page = open_templates(_FOLDER).get_template(_TEMPLATE)
    html = page.render(
        tag=edition.language,
        direction="rtl" if language.is_right_to_left else "ltr",
        title=edition.title,
        caution=edition.caution,
        home=site.link(PROOF, HOME),
        proof_href=site.link(PROOF, site.whole + PROOF_FILE),
        proof_file=PROOF_FILE,
        lessons=[_say_lesson(site, language, edition, each, digest) for each in edition.lessons],
        sources=[(path, sources[path]) for path in sorted(used)],
        style=Markup(_write_style(site.course.settings.colours)),  # noqa: S704  # styles of ours
        **language.sayings,
    )
    return add_closed_policy(html)


def _write_style(colours: Colours) -> str:
    sheet = (find_templates() / _FOLDER / "proof.css").read_text(encoding="utf-8")
    return f"{write_faces()}{write_colours(colours)}{sheet}"


def _say_lesson(
    site: Site, language: Language, edition: EditionProof, lesson: LessonProof, digest: Digest
) -> _LessonLines:
    titles = {notice.id: notice.title for notice in edition.notices}
    traits = [edition.traits[name].title for name in lesson.traits]
    names = {f"{NOTICE}{name}": title for name, title in titles.items()}
    names[CAUTION] = language.say("The course's caution")
    return _LessonLines(
        id=lesson.id,
        title=lesson.title,
        traits=language.all_of(traits),
        waived=tuple(f"{titles[each.notice]}: {each.reason}" for each in lesson.waived),
        shown=tuple(
            _Shown(
                name=_name(language, artefact),
                href=site.link(PROOF, artefact.file),
                digest=digest(artefact.file),
                lines=tuple(
                    _say_seen(language, names[seen.name], seen)
                    for seen in artefact.seen
                    if seen.name in names
                ),
            )
            for artefact in lesson.artefacts
        ),
    )


def _name(language: Language, artefact: Artefact) -> str:
    """Say what shows the lesson."""
    if artefact.kind is Kind.PAGE:
        return language.say("Page of the lesson")
    if artefact.kind is Kind.CHAPTER:
        return language.say("Chapter of the book")
    paper = PAPERS[artefact.paper].title
    if artefact.kind is Kind.CARD:
        return language.say("Card, {paper}", paper=paper)
    if artefact.is_whole_pack:
        return language.say("Pack of the whole course, {paper}", paper=paper)
    return language.say("Pack of the strand, {paper}", paper=paper)


def _say_seen(language: Language, name: str, seen: Seen) -> str:
    """Say where a caution was found: on a page of paper, or under a heading of a web page."""
    place, number = seen.place, language.number
    size = language.say("letters {points} pt", points=number(place.size_points))
    contrast = language.say("contrast {ratio} to 1", ratio=number(place.contrast))
    if place.box is None:
        spot = language.say("under “{heading}”", heading=place.spot) if place.spot else ""
        return f"{name}: {', '.join(part for part in (spot, size, contrast) if part)}"
    spot = language.say(
        "page {page}, {left} mm from the left, {top} mm from the top",
        page=place.page,
        left=number(place.box.left_mm),
        top=number(place.box.top_mm),
    )
    return f"{name}: {spot}, {size}, {contrast}"
