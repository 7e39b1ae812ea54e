"""A lesson put into words that are ready to print, the same for pages and for cards."""

from functools import partial

from markupsafe import Markup

from builder.course.course import Course
from builder.course.lesson import Lesson, Passage
from builder.course.notice import Notice
from builder.course.tempo import Tempo
from builder.language import Language, language_of
from builder.publishing.views.inline import InlineRenderer, Link
from builder.publishing.views.lesson_view import (
    FaultView,
    LessonName,
    LessonView,
    MeasureView,
    NoticeView,
    PropView,
    TempoView,
)
from builder.publishing.views.wording import (
    word_action,
    word_dose,
    word_figures,
    word_phases,
    word_position,
    word_prop,
    word_rate,
    word_review,
    word_tempo,
    word_time,
)
from builder.sums.timing import time_drill


def lesson_path(lesson: Lesson) -> str:
    """Return the path of a lesson's page from the site's root, as browsers see it."""
    return f"lessons/{lesson.strand.id}/{lesson.id}/"


def lesson_address(course: Course, lesson: Lesson) -> str:
    """Return the address of a lesson's page on the web, or nothing."""
    site = course.settings.address
    return f"{site.rstrip('/')}/{lesson_path(lesson)}" if site else ""


def view_lesson(course: Course, lesson: Lesson, link: Link) -> LessonView:
    """Put a lesson into words; ``link`` gives the address of another lesson's page."""
    inline = InlineRenderer(course.titles, link)
    names = partial(_name_lessons, course, link)
    words = lesson.words
    drill = lesson.drill
    tempo = drill.tempo
    studio = course.settings.studio
    language = language_of(course.settings.language)
    return LessonView(
        id=lesson.id,
        title=lesson.title,
        summary=inline.render(lesson.summary),
        strand_id=lesson.strand.id,
        strand_title=lesson.strand.title,
        level=lesson.level,
        position=word_position(drill.position),
        tempo=None if tempo is None else _view_tempo(language, tempo),
        tempo_text=word_figures(language, tempo),
        dose=word_dose(language, drill.dose),
        time=word_time(language, time_drill(drill, course.settings.limits.set_up_seconds)),
        props=tuple(
            PropView(use.prop.id, use.prop.title, use.count, word_prop(use), use.prop.stand_in)
            for use in drill.props
        ),
        set_up=_passages(inline, words.set_up),
        steps=_passages(inline, words.steps),
        if_hard=_passages(inline, words.if_hard),
        coach_notes=_passages(inline, words.coach_notes),
        cue_inhale=None if words.cues is None else inline.render(words.cues.inhale),
        cue_exhale=None if words.cues is None else inline.render(words.cues.exhale),
        watch_for=tuple(_view_fault(inline, text) for text in words.watch_for),
        ready_when=tuple(inline.render(text) for text in words.ready_when),
        stop_if=tuple(inline.render(text) for text in words.stop_if),
        easier=names(lesson.easier),
        harder=names(lesson.harder),
        builds_on=names(lesson.builds_on),
        builds_into=names(tuple(other.id for other in course.builds_into(lesson.id))),
        notices=tuple(
            view_notice(language, inline, notice) for notice in course.notices_for(lesson)
        ),
        measures=tuple(MeasureView(m.title, m.unit, m.has_sides) for m in lesson.measures),
        reviewed=word_review(language, lesson.reviewed),
        caution=course.settings.caution,
        studio=", ".join(part for part in (studio.name, studio.contact) if part),
        address=lesson_address(course, lesson),
    )


def view_notice(language: Language, inline: InlineRenderer, notice: Notice) -> NoticeView:
    """Put a notice into its short form."""
    return NoticeView(
        id=notice.id,
        title=notice.title,
        action=notice.action.value,
        action_word=word_action(language, notice.action),
        short=inline.render(notice.short),
        adapt=inline.render(notice.adapt),
    )


def _view_tempo(language: Language, tempo: Tempo) -> TempoView:
    return TempoView(
        word_figures(language, tempo),
        word_phases(language, tempo),
        word_rate(language, tempo),
        word_tempo(language, tempo),
    )


def _view_fault(inline: InlineRenderer, text: str) -> FaultView:
    """Part "fault: cure" at the first colon."""
    fault, _, cure = text.partition(":")
    return FaultView(inline.render(fault.strip()), inline.render(cure.strip()))


def _passages(inline: InlineRenderer, passages: tuple[Passage, ...]) -> tuple[Markup, ...]:
    return tuple(inline.render(passage.text) for passage in passages)


def _name_lessons(course: Course, link: Link, ids: tuple[str, ...]) -> tuple[LessonName, ...]:
    """Name the lessons that exist; an unknown name is a finding elsewhere."""
    return tuple(
        LessonName(name, course.by_id[name].title, link(name))
        for name in ids
        if name in course.by_id
    )
