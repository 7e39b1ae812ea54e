"""The lessons of a sheet: dose, count, props, days and boxes of one person."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date

from markupsafe import Markup

from builder.course.audience import Audience
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from builder.course.tempo import Tempo
from builder.course.vocabulary import Position, PropUse
from builder.language import Language
from builder.planning.home_plan import HomeLesson, HomePlan
from builder.planning.own_drill import find_instead, find_own_drill
from builder.planning.weaker_side import SidePlan
from builder.publishing.client_sheet.languages import SpokenCourse
from builder.publishing.client_sheet.trends import name_side
from builder.publishing.client_sheet.view import (
    SheetLesson,
    WeekBoxes,
)
from builder.publishing.views.inline import no_link
from builder.publishing.views.lesson_in_words import view_lesson
from builder.publishing.views.own_figure import find_own_figure
from builder.publishing.views.wording import (
    word_dose,
    word_figures,
    word_position,
    word_prop,
    word_rate,
)
from builder.records.result import Side
from builder.sums.practice import GARBER, find_frequency
from builder.sums.version import find_version

_SOURCE = f"Garber et al. {GARBER.year}"
"""In a form that no language has to translate."""


def view_home_lesson(
    spoken: SpokenCourse, plan: HomePlan, home: HomeLesson, number: int
) -> SheetLesson:
    """Put one lesson of a plan into words, in the nearest language."""
    course = spoken.find_course(home.lesson_id)
    lesson, language = course.by_id[home.lesson_id], spoken.language
    view = view_lesson(course, lesson, no_link)
    tempo = _find_tempo(plan, lesson)
    version = find_version(course, lesson, Audience.CLIENT)
    drill, instead = find_own_drill(lesson, home.adaptations), find_instead(home.adaptations)
    return SheetLesson(
        id=lesson.id,
        number=number,
        title=lesson.title,
        position=_say_position(spoken, drill.position, is_moved=instead is not None),
        usual=language.say("The page behind the code shows the usual position.") if instead else "",
        language=course.settings.language,
        untranslated=_tell_untranslated(spoken, course.settings.language),
        figure=find_own_figure(lesson, instead),
        tempo=tempo,
        tempo_text=word_figures(language, tempo),
        rate=word_rate(language, tempo) if tempo else "",
        dose=_word_dose(language, lesson, home),
        time=language.say("about {minutes} min", minutes=language.number(home.minutes)),
        sides=_say_sides(home.side_plan, language),
        props=_say_props(spoken, drill.props),
        cues=tuple(cue for cue in (view.cue_inhale, view.cue_exhale) if cue),
        ready_when=view.ready_when,
        stop_if=view.stop_if,
        thin=_tell_thin_weeks(plan, home, language),
        weeks=_view_weeks(plan.span.list_weeks(), home.days, language),
        version=version,
        address=f"{view.address}#card={version}" if view.address else "",
    )


def _tell_untranslated(spoken: SpokenCourse, tag: str) -> str:
    if spoken.is_own(tag):
        return ""
    return spoken.language.say(
        "This lesson is in {language}: it is not translated yet.",
        language=spoken.language.name_of(tag),
    )


def _find_tempo(plan: HomePlan, lesson: Lesson) -> Tempo | None:
    """Return a lesson's count; on a ladder the person's own first rung."""
    is_own = plan.ladder is not None and plan.ladder.lesson_id == lesson.id
    return plan.ladder.rungs[0] if is_own and plan.ladder else lesson.drill.tempo


def _word_dose(language: Language, lesson: Lesson, home: HomeLesson) -> str:
    dose = lesson.drill.dose
    if isinstance(dose, Dose) and home.rest_seconds is not None:
        dose = replace(dose, rest_seconds=math.ceil(home.rest_seconds))
    return word_dose(language, dose)


def _say_sides(plan: SidePlan | None, language: Language) -> str:
    if plan is None:
        return ""
    other = Side.RIGHT if plan.first is Side.LEFT else Side.LEFT
    return language.say(
        "Start with this side: {first}. Sets there: {more}. Sets on the other side, {other}: "
        "{less}.",
        first=name_side(plan.first, language),
        more=language.number(plan.weaker_sets),
        other=name_side(other, language),
        less=language.number(plan.stronger_sets),
    )


def _say_position(spoken: SpokenCourse, position: Position, *, is_moved: bool) -> Markup:
    own = spoken.own.vocabulary.positions[position.id]
    if not is_moved:
        return spoken.set_apart(word_position(own))
    title = spoken.set_apart(own.title)
    return spoken.language.say_html("{position} instead", position=title)


def _say_props(spoken: SpokenCourse, props: Iterable[PropUse]) -> str | Markup:
    """Say what is needed, each thing with what a household has instead."""
    language, known = spoken.language, spoken.own.vocabulary.props
    said: list[str] = []
    for use in props:
        prop = known[use.prop.id]
        name = spoken.set_apart(word_prop(replace(use, prop=prop)))
        stand_in = spoken.set_apart(prop.stand_in)
        said.append(
            language.say_html("{prop} (or {stand_in})", prop=name, stand_in=stand_in)
            if prop.stand_in
            else name
        )
    return language.say_html("You need: {props}", props=Markup(", ").join(said)) if said else ""


def _tell_thin_weeks(plan: HomePlan, home: HomeLesson, language: Language) -> str:
    weeks = plan.list_thin_weeks(home)
    if not weeks:
        return ""
    return language.say(
        "In week {weeks} this has fewer than the {days} days a week that guidance advises "
        "({source}). Ask your coach about it.",
        days=language.number(find_frequency(home.kind).least_days),
        weeks=language.all_of([language.number(number) for number in weeks]),
        source=_SOURCE,
    )


def _view_weeks(
    weeks: Sequence[tuple[date, ...]], days: tuple[date, ...], language: Language
) -> tuple[WeekBoxes, ...]:
    return tuple(
        WeekBoxes(
            language.say("Week {number}", number=language.number(number)),
            tuple(language.weekday(day) for day in week if day in days),
        )
        for number, week in enumerate(weeks, 1)
    )
