"""A home plan put into the words of a sheet, in the person's language."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import date

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.dose import Dose
from builder.course.lesson import Lesson
from builder.course.tempo import Tempo
from builder.language import Language, mark
from builder.planning.home_lessons import WhyInClass
from builder.planning.home_plan import HomeLesson, HomePlan
from builder.planning.overview import PersonOverview
from builder.planning.weaker_side import SidePlan
from builder.publishing.client_sheet.cautions import group_notices, list_own_cautions
from builder.publishing.client_sheet.languages import SpokenCourse, speak_to
from builder.publishing.client_sheet.trends import name_side, view_trends
from builder.publishing.client_sheet.view import (
    Said,
    SheetLesson,
    SheetRung,
    SheetView,
    WeekBoxes,
)
from builder.publishing.views.inline import no_link
from builder.publishing.views.lesson_in_words import view_lesson
from builder.publishing.views.wording import (
    word_dose,
    word_figures,
    word_position,
    word_prop,
    word_rate,
)
from builder.records.result import Side
from builder.records.studio import StudioSettings
from builder.sums.paper import choose_sheet
from builder.sums.version import find_version


@dataclass(frozen=True)
class SheetOrder:
    """All that a sheet is made from."""

    course: Course
    studio: StudioSettings
    overview: PersonOverview
    plan: HomePlan


def view_sheet(order: SheetOrder) -> SheetView:
    """Put a plan into words."""
    person, plan = order.overview.person, order.plan
    spoken = speak_to(order.course, order.studio, person)
    language = spoken.language
    settings = spoken.own.settings
    studio = order.studio
    return SheetView(
        language=language,
        vocabulary_language=settings.language,
        person_id=person.id,
        name=person.name,
        goal=person.goal,
        period=_say_period(plan, order.overview.day, language),
        ask_first=_ask_first(spoken, plan),
        own_cautions=list_own_cautions(spoken, plan, order.overview),
        cautions=group_notices(spoken, plan),
        caution=Said(settings.caution, settings.language),
        lessons=tuple(
            _view_lesson(spoken, plan, lesson, number)
            for number, lesson in enumerate(plan.lessons, 1)
        ),
        no_lessons=_say_no_lessons(plan, language),
        with_coach=_say_with_coach(spoken, plan),
        ladder_title=_title_ladder(spoken, plan),
        rungs=_view_rungs(plan, language),
        trends=view_trends(spoken, order.overview.trends),
        retest=_say_retest(spoken, plan),
        studio=", ".join(part for part in (studio.name, studio.contact) if part),
        day=order.overview.day,
        accent=studio.colours.accent,
        paper=choose_sheet(studio.paper),
    )


def _say_period(plan: HomePlan, day: date, language: Language) -> str:
    """Say for which weeks a sheet is; one without lessons has the day on which it was made."""
    if not plan.lessons:
        return language.date(day)
    return language.say(
        "Practice at home from {first} to {last}",
        first=language.date(plan.span.first_day),
        last=language.date(plan.span.last_day),
    )


def _ask_first(spoken: SpokenCourse, plan: HomePlan) -> str:
    if not plan.asks_first:
        return ""
    known = spoken.own.vocabulary.conditions
    titles = [known[name].title if name in known else name for name in plan.asks_first]
    return spoken.language.say(
        "Ask a clinician before you practise at home, and tell your coach what they said. It is "
        "about this: {conditions}. Until then there are no lessons on this sheet.",
        conditions=spoken.language.all_of(titles),
    )


def _view_lesson(
    spoken: SpokenCourse, plan: HomePlan, home: HomeLesson, number: int
) -> SheetLesson:
    course = spoken.find_course(home.lesson_id)
    lesson, language = course.by_id[home.lesson_id], spoken.language
    view = view_lesson(course, lesson, no_link)
    tempo = _find_tempo(plan, lesson)
    version = find_version(course, lesson, Audience.CLIENT)
    return SheetLesson(
        id=lesson.id,
        number=number,
        title=lesson.title,
        position=word_position(spoken.own.vocabulary.positions[lesson.drill.position.id]),
        language=course.settings.language,
        is_translated=spoken.is_own(course.settings.language),
        figure=lesson.figure,
        tempo=tempo,
        tempo_text=word_figures(language, tempo),
        rate=word_rate(language, tempo) if tempo else "",
        dose=_word_dose(language, lesson, home),
        time=language.say("about {minutes} min", minutes=language.number(home.minutes)),
        sides=_say_sides(home.side_plan, language),
        props=_say_props(spoken, lesson),
        cues=tuple(cue for cue in (view.cue_inhale, view.cue_exhale) if cue),
        ready_when=view.ready_when,
        stop_if=view.stop_if,
        weeks=_view_weeks(plan.span.list_weeks(), home.days, language),
        version=version,
        address=f"{view.address}#card={version}" if view.address else "",
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


def _say_props(spoken: SpokenCourse, lesson: Lesson) -> str:
    """Say what is needed, each thing with what a household has instead."""
    language, known = spoken.language, spoken.own.vocabulary.props
    said = []
    for use in lesson.drill.props:
        prop = known[use.prop.id]
        name = word_prop(replace(use, prop=prop))
        said.append(
            language.say("{prop} (or {stand_in})", prop=name, stand_in=prop.stand_in)
            if prop.stand_in
            else name
        )
    return language.say("You need: {props}", props=", ".join(said)) if said else ""


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


def _say_no_lessons(plan: HomePlan, language: Language) -> str:
    if plan.lessons or plan.asks_first:
        return ""
    return language.say(
        "There is nothing to practise at home yet. Come to a class first: your coach shows you "
        "what comes next."
    )


def _say_with_coach(spoken: SpokenCourse, plan: HomePlan) -> str:
    """Name the strands at which a coach looks first; none of their lessons is on the sheet."""
    known = {**spoken.original.vocabulary.strands, **spoken.own.vocabulary.strands}
    titles = [known[each.strand_id].title for each in plan.left if each.why is WhyInClass.LOOK]
    if not titles:
        return ""
    return spoken.language.say("With your coach first: {strands}.", strands=", ".join(titles))


def _title_ladder(spoken: SpokenCourse, plan: HomePlan) -> str:
    return spoken.find_lesson(plan.ladder.lesson_id).title if plan.ladder else ""


def _view_rungs(plan: HomePlan, language: Language) -> tuple[SheetRung, ...]:
    rungs = plan.ladder.rungs if plan.ladder else ()
    return tuple(
        SheetRung(
            word_figures(language, rung),
            language.say("{seconds} s", seconds=language.number(rung.cycle_seconds)),
        )
        for rung in rungs
    )


def _say_retest(spoken: SpokenCourse, plan: HomePlan) -> str:
    if plan.retest is None:
        return ""
    known = spoken.own.vocabulary.measures
    titles = [known[measure.id].title for measure in plan.retest.measures]
    day = spoken.language.date(plan.retest.day)
    measures = spoken.language.all_of(titles)
    if plan.retest.is_class_day:
        text = mark("On {day} your coach measures again: {measures}.")
    else:
        text = mark("At your next class from {day} on, your coach measures again: {measures}.")
    return spoken.language.say(text, day=day, measures=measures)
