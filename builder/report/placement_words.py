"""Why a person starts where they start, and what bars or changes a lesson, in plain words.

Each sentence says what is on record and whose turn it is; none says what anybody has or lacks.
"""

from collections.abc import Iterable

from builder.course.course import Course
from builder.planning.answers import FoundAnswer, Origin
from builder.planning.permission import Adaptation, AdaptationKind, Barrier, BarrierKind
from builder.planning.placing import PersonStart, StartKind


def say_barrier(course: Course, barrier: Barrier) -> str:
    """Say why a lesson is barred."""
    named = _name(course, barrier.conditions)
    match barrier.kind:
        case BarrierKind.STOP:
            return f'the notice "{_title(course, barrier.notice_id)}" leaves it out with {named}'
        case BarrierKind.ASK_FIRST:
            return f"no clinician's answer on record for {named}: a licensed clinician comes first"
        case BarrierKind.POSITION:
            return (
                f'the notice "{_title(course, barrier.notice_id)}" moves it with {named}, and no '
                "position that it leads to suits all of their notices"
            )
        case BarrierKind.ANSWER:
            return _say_own_answer(course, barrier)
        case BarrierKind.HOLD:
            return _say_hold(barrier)
        case BarrierKind.AIR:
            return (
                "the count is too slow for this drill and this body: a breath would take "
                f"{barrier.air_percent}% of the predicted capacity"
            )


def say_stops(course: Course, barriers: Iterable[Barrier]) -> tuple[str, ...]:
    """Say what a person leaves out by notices that stop some of their lessons, each once.

    No lesson of a plan carries such a notice, and a coach who changes the plan has to know.
    """
    stops = dict.fromkeys(
        (each.notice_id, each.conditions) for each in barriers if each.kind is BarrierKind.STOP
    )
    words = {notice.id: notice.adapt or notice.short for notice in course.notices}
    return tuple(f"{_name(course, named)}: {words[notice_id]}" for notice_id, named in stops)


def say_adaptation(course: Course, adaptation: Adaptation) -> str:
    """Say what is different for a person in a lesson."""
    match adaptation.kind:
        case AdaptationKind.ADAPT:
            said = f"{_say_whom(course, adaptation)}: {adaptation.text}"
            return f"{said}{_say_moved_on(adaptation)}"
        case AdaptationKind.CLEARED:
            return _say_cleared(course, adaptation)
        case AdaptationKind.HANDS_ON:
            return "words only, no hands: no consent is on record"
        case AdaptationKind.AIR:
            return (
                f"big breaths: each takes {adaptation.air_percent}% of the predicted capacity, "
                "so offer a shorter count"
            )


def say_start(course: Course, start: PersonStart) -> str:
    """Say why a person starts there in a strand, or why the strand waits."""
    barred = "; ".join(say_barrier(course, barrier) for barrier in start.barriers)
    if start.start is None or start.kind is StartKind.ASKS_FIRST:
        return barred
    wanted = start.start.lesson_id
    title = course.by_id[wanted].title if wanted in course.by_id else wanted
    match start.kind:
        case StartKind.EASIER:
            return f'in place of "{title}": {barred}'
        case StartKind.WAITS:
            return f'the strand waits at "{title}": {barred}'
        case StartKind.UNREADABLE:
            return f'the strand waits: the file of "{title}" can\'t be read'
        case _:
            return start.start.why


def say_answer(course: Course, answer: FoundAnswer) -> str:
    """Say what was taken for an answer, and where it comes from."""
    questions = course.placement.questions if course.placement else ()
    question = next((each for each in questions if each.id == answer.question_id), None)
    words = dict(question.answers) if question else {}
    value = answer.value
    said = words.get(value, value) if isinstance(value, str) else f"{value:g} s"
    return f"{said} ({_say_origin(course, answer)})"


def _say_origin(course: Course, answer: FoundAnswer) -> str:
    match answer.origin:
        case Origin.HISTORY:
            known = course.by_id.get(answer.lesson_id)
            return f'ready in "{known.title if known else answer.lesson_id}"'
        case Origin.RESULT:
            return f"recorded on {answer.day}"
        case Origin.CONDITION:
            return f"because of {_name(course, answer.conditions)}"
        case Origin.OTHERWISE:
            return "nothing else is on record"


def _say_own_answer(course: Course, barrier: Barrier) -> str:
    questions = course.placement.questions if course.placement else ()
    asked = {question.id: question for question in questions}[barrier.question_id]
    return f'asked "{asked.text}", they said "{asked.answers[barrier.answer]}"'


def _say_hold(barrier: Barrier) -> str:
    asked = f"the count holds {barrier.hold_seconds:g} s"
    if barrier.most_hold_seconds is None:
        return f"{asked}, and no comfortable hold is on record"
    return f"{asked}, and half of the comfortable hold is {barrier.most_hold_seconds:g} s"


def _say_moved_on(adaptation: Adaptation) -> str:
    """Say where a lesson is done after all, where another notice rules out what this one names."""
    if adaptation.instead is None or not adaptation.is_moved_on:
        return ""
    return f" But here: {adaptation.instead.position.title}, by their other cautions."


def _say_cleared(course: Course, adaptation: Adaptation) -> str:
    answers = ", ".join(
        f"{_name(course, [name])} on {day.isoformat()}"
        for name, day in zip(adaptation.conditions, adaptation.cleared_on, strict=True)
    )
    said = f"a clinician said yes: {answers}"
    if adaptation.ask_again:
        said += f"; over 26 weeks ago for {_name(course, adaptation.ask_again)}, so ask again"
    notice = adaptation.notice
    if notice is None or notice.everywhere:
        return said
    return f"{said}; the notice goes on holding: {notice.short}"


def _say_whom(course: Course, adaptation: Adaptation) -> str:
    """Name conditions, and a clinician's answer: the notice may speak as if there were none."""
    named = _name(course, adaptation.conditions)
    return f"{named}, even after a yes" if adaptation.cleared_on else named


def _name(course: Course, conditions: Iterable[str]) -> str:
    """Name conditions as the course does."""
    known = course.vocabulary.conditions
    return _join(known[name].title if name in known else name for name in conditions)


def _join(words: Iterable[str]) -> str:
    """Put "and" before the last."""
    every = list(words)
    return " and ".join(part for part in (", ".join(every[:-1]), *every[-1:]) if part)


def _title(course: Course, notice_id: str) -> str:
    return next((each.title for each in course.notices if each.id == notice_id), notice_id)
