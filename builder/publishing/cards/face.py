"""What stands on a card, beside the lesson's own view."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from builder import __version__
from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.demand import hardest
from builder.course.figure import Figure
from builder.course.lesson import Lesson
from builder.course.tempo import Tempo
from builder.drawing.axis_words import name_axes
from builder.language import Language, language_of
from builder.publishing.cards.qr import draw_qr
from builder.publishing.views.inline import no_link, strip_tags
from builder.publishing.views.lesson_in_words import view_lesson
from builder.publishing.views.lesson_view import LessonName, LessonView, NoticeView
from builder.sums.air import find_air_share
from builder.sums.paper import Paper
from builder.sums.version import find_version


@dataclass(frozen=True, slots=True)
class NoticeGroup:
    """All notices of a lesson that ask for the same."""

    action: str
    word: str
    notices: tuple[NoticeView, ...]


@dataclass(frozen=True, slots=True)
class CardFace:
    """Everything on one lesson's card; the same values always give the same card."""

    lesson: LessonView
    tempo: Tempo | None
    figure: Figure | None
    language: str
    paper: Paper
    audience: Audience
    position_line: str
    easier: str
    """Titles of easier lessons that the words above don't name yet."""
    harder: str
    notices: tuple[NoticeGroup, ...]
    qr: Markup
    """Empty where nobody knows the address yet."""
    accent: str
    studio_name: str
    small_print: str
    demand: tuple[tuple[str, int], ...]
    new_demand: str
    """What rises over the lessons that this one builds on."""
    shares: tuple[tuple[str, int], ...]
    """Each reference body with the percent of its capacity that the count's breath needs."""
    is_archival: bool

    @property
    def air(self) -> str:
        """Say how big a breath the count asks for; small papers have no room for it."""
        if not self.shares or not self.paper.is_roomy:
            return ""
        shares = " · ".join(f"{name} {percent}" for name, percent in self.shares)
        return language_of(self.language).say("{shares} % of capacity", shares=shares)

    @property
    def kind(self) -> str:
        """Return the mark that keeps a coach's card from clients."""
        is_for_coach = self.audience is Audience.COACH
        return language_of(self.language).say_as("card", "Coach") if is_for_coach else ""


def face_cards(
    course: Course, lessons: Iterable[Lesson], audience: Audience, papers: Sequence[Paper]
) -> dict[str, tuple[CardFace, ...]]:
    """Put lessons on cards; the answer has them by the id of each paper."""
    faces = [_face(course, lesson, audience, papers[0]) for lesson in lessons]
    return {paper.id: tuple(replace(face, paper=paper) for face in faces) for paper in papers}


def _face(course: Course, lesson: Lesson, audience: Audience, paper: Paper) -> CardFace:
    view = view_lesson(course, lesson, no_link)
    settings = course.settings
    language = language_of(settings.language)
    axes = name_axes(language).values()
    code = find_version(course, lesson, audience)
    said = " ".join(strip_tags(text) for text in view.if_hard)
    return CardFace(
        lesson=view,
        tempo=lesson.drill.tempo,
        figure=lesson.figure,
        language=settings.language,
        paper=paper,
        audience=audience,
        position_line=_position_line(view),
        easier=language.all_of(_unsaid(view.easier, said)),
        harder=language.all_of(_unsaid(view.harder, said)),
        notices=_group(view.notices, settings.caution),
        qr=_code(language, view, code),
        accent=settings.colours.accent,
        studio_name=settings.studio.name,
        small_print=_small_print(language, view, settings.address, code),
        demand=tuple(zip(axes, course.demands[lesson.id].ranks, strict=True)),
        new_demand=_new_demand(language, course, lesson),
        shares=_find_shares(course, lesson),
        is_archival=settings.is_archival,
    )


def _find_shares(course: Course, lesson: Lesson) -> tuple[tuple[str, int], ...]:
    drill = lesson.drill
    if drill.tempo is None:
        return ()
    cycle = drill.tempo.cycle_seconds
    shares = [find_air_share(cycle, drill.effort.met, body) for body in course.reference_bodies]
    return tuple((share.body.name, share.percent) for share in shares)


def _code(language: Language, view: LessonView, code: str) -> Markup:
    """Draw the way to the lesson's page, which learns from it what card it is asked about."""
    if not view.address:
        return Markup()
    return draw_qr(
        f"{view.address}#card={code}", language.say("QR code of {address}", address=view.address)
    )


def _position_line(view: LessonView) -> str:
    props = ", ".join(prop.text for prop in view.props)
    return f"{view.position} · {props}" if props else view.position


def _unsaid(names: tuple[LessonName, ...], said: str) -> tuple[str, ...]:
    return tuple(name.title for name in names if name.title not in said)


def _group(notices: tuple[NoticeView, ...], caution: str) -> tuple[NoticeGroup, ...]:
    """Gather notices of the same action; they come strongest first already.

    A notice that says what the course's caution says stands at the foot and not twice.
    """
    groups: dict[tuple[str, str], list[NoticeView]] = {}
    for notice in notices:
        if strip_tags(notice.short) == caution:
            continue
        groups.setdefault((notice.action, notice.action_word), []).append(notice)
    return tuple(NoticeGroup(*key, tuple(group)) for key, group in groups.items())


def _small_print(language: Language, view: LessonView, address: str, code: str) -> str:
    short = address.partition("://")[2].rstrip("/")
    version = language.say("version {code}", code=code).replace(" ", "\N{NO-BREAK SPACE}")
    parts = (view.studio, short, version, view.reviewed, f"tempoleaf {__version__}")
    return "\N{NO-BREAK SPACE}· ".join(part for part in parts if part)


def _new_demand(language: Language, course: Course, lesson: Lesson) -> str:
    before = hardest(course.demands[name] for name in course.graph[lesson.id])
    axes = name_axes(language)
    risen = course.demands[lesson.id].risen_over(before)
    return language.all_of([f"{axes[axis]} +{step}" for axis, step in risen.items()])
