"""A turn of a class in words: one person's own version of a lesson, with what is changed for them.

What changes is said in English, as findings are: it is for coaches.
"""

from dataclasses import dataclass, replace
from functools import cached_property

from builder.course.course import Course
from builder.course.dose import Dose, TimedDose
from builder.course.lesson import Lesson
from builder.course.measure_words import list_words
from builder.course.vocabulary import Measure
from builder.language import Language, language_of, mark
from builder.planning.class_plan.planned import PlannedClass
from builder.planning.class_plan.versions import time_sets
from builder.planning.own_drill import find_instead, find_own_drill
from builder.planning.permission import Adaptation, AdaptationKind
from builder.planning.progress import find_rest
from builder.planning.readings import HOLD_MEASURE
from builder.planning.weaker_side import SidePlan, plan_sides
from builder.publishing.views.class_view import RecordView, TurnView
from builder.publishing.views.inline import InlineRenderer, no_link, strip_tags
from builder.publishing.views.own_figure import find_own_figure
from builder.publishing.views.wording import word_dose, word_instead, word_position
from builder.records.plan import OWN_PACE, PlannedBlock, Turn
from builder.records.program import Program
from builder.records.result import Side
from builder.report.placement_words import say_adaptation

_SHORT = {
    AdaptationKind.ADAPT: mark("another way"),
    AdaptationKind.CLEARED: mark("clinician asked"),
    AdaptationKind.HANDS_ON: mark("words only"),
    AdaptationKind.AIR: mark("shorter count"),
}
"""What stands on a card that others may see; why, only the coach reads."""


@dataclass(frozen=True)
class TurnWriter:
    """Puts the turns of one class into words."""

    course: Course
    program: Program
    planned: PlannedClass

    @cached_property
    def language(self) -> Language:
        """Return the language of the course."""
        return language_of(self.course.settings.language)

    @cached_property
    def inline(self) -> InlineRenderer:
        """Return what turns a lesson's Markdown into words."""
        return InlineRenderer(self.course.titles, no_link)

    def view(self, block: PlannedBlock, turn: Turn) -> TurnView:
        """Return one turn; its lesson is one that the person may do today."""
        lesson = self.course.by_id[turn.lesson_id]
        guest = self.planned.guests[turn.person_id]
        version = self.planned.problem.by_lesson[turn.person_id, lesson.id]
        dose = self._find_dose(lesson, turn.person_id)
        weaker = guest.weaker_sides.get(lesson.id)
        sides = plan_sides(lesson, weaker)
        cues = lesson.words.cues
        changes = guest.adaptations.get(lesson.id, ())
        drill, instead = find_own_drill(lesson, changes), find_instead(changes)
        return TurnView(
            person_id=turn.person_id,
            name=self.program.people[turn.person_id].name,
            lesson_id=lesson.id,
            title=lesson.title,
            position=word_position(drill.position),
            tempo=lesson.drill.tempo,
            dose=dose,
            dose_text=word_dose(self.language, dose),
            rest_seconds=dose.rest_seconds if isinstance(dose, Dose) else 0,
            seconds=time_sets(lesson, dose, weaker),
            first_side=sides.first.value if sides else "",
            side_text=self._say_sides(sides) if sides else "",
            look_at=self._plain(lesson.words.watch_for[0]) if lesson.words.watch_for else "",
            ready_when=tuple(map(self._plain, lesson.words.ready_when)),
            stop_if=tuple(map(self._plain, lesson.words.stop_if)),
            cue_inhale=self._plain(cues.inhale) if cues else "",
            cue_exhale=self._plain(cues.exhale) if cues else "",
            has_close_look=turn.has_close_look,
            is_new=version.is_new,
            keeps_own_pace=version.count == OWN_PACE != block.count,
            cautions=tuple(say_adaptation(self.course, each) for each in changes),
            props=tuple((use.prop.title, use.count) for use in drill.props),
            records=tuple(map(_view_record, lesson.measures)),
            figure=find_own_figure(lesson, instead),
            caution_words=tuple(map(self._shorten, changes)),
            instead=word_instead(self.language, instead.position) if instead else "",
            general=frozenset(
                say_adaptation(self.course, each) for each in changes if _is_general(each)
            ),
        )

    def _find_dose(self, lesson: Lesson, person_id: str) -> Dose | TimedDose:
        """Return the dose with the person's own rest, by what was recorded before the day."""
        day, standing = self.planned.order.day, self.planned.guests[person_id].standing
        own = self.program.attendance_by_person[person_id]
        before = [row for row in own if row.day < day]
        rest = find_rest(lesson, before, standing.tries.get(lesson.id, ()))
        dose = lesson.drill.dose
        if rest is None or not isinstance(dose, Dose):
            return dose
        return replace(dose, rest_seconds=round(rest.seconds))

    def _shorten(self, adaptation: Adaptation) -> str:
        if adaptation.instead:
            return word_instead(self.language, adaptation.instead.position)
        return self.language.say(_SHORT[adaptation.kind])

    def _say_sides(self, sides: SidePlan) -> str:
        first, second = sides.weaker_sets, sides.stronger_sets
        if sides.first is Side.LEFT:
            return self.language.say(
                "left first: {first} sets, right {second}", first=first, second=second
            )
        return self.language.say(
            "right first: {first} sets, left {second}", first=first, second=second
        )

    def _plain(self, text: str) -> str:
        return strip_tags(self.inline.render(text))


def _is_general(adaptation: Adaptation) -> bool:
    """Tell whether it is a clinician's yes to a notice of every lesson, which changes nothing."""
    is_yes = adaptation.kind is AdaptationKind.CLEARED
    return is_yes and adaptation.notice is not None and adaptation.notice.everywhere


def _view_record(measure: Measure) -> RecordView:
    return RecordView(
        id=measure.id,
        title=measure.title,
        unit=measure.unit,
        has_sides=measure.has_sides,
        words=list_words(measure),
        is_timed=measure.id == HOLD_MEASURE,
    )
