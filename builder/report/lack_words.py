"""What a class plan lacks, in words: reasons, breaches, and what would help."""

from collections.abc import Iterable

from builder.course.course import Course
from builder.planning.class_plan.changes import Change
from builder.planning.class_plan.explain import Reason
from builder.planning.class_plan.refusal import Ground, Refusal
from builder.planning.class_plan.score import Breach, Fault
from builder.planning.class_plan.wishes import Wish
from builder.report.placement_words import say_barrier

_MINUTE = 60


def say_reason(course: Course, reason: Reason) -> str:
    """Say why somebody does what they do and not what would be worth more."""
    better = course.name_lesson(reason.better_id)
    if reason.refusal is not None:
        return f"not {better}: {say_refusal(course, reason.refusal)}"
    if reason.lack is not None:
        return f"not {better}: {_say_lack(course, reason.lack)}"
    return f"not {better}"


def say_refusal(course: Course, refusal: Refusal) -> str:
    """Say why somebody may not do a lesson."""
    match refusal.ground:
        case Ground.NOT_READY:
            return f"not ready yet in {_join(course, refusal.missing)}"
        case Ground.TOO_MUCH:
            return "it was too much twice in a row, so something easier comes first"
        case Ground.BARRED:
            return "; ".join(say_barrier(course, barrier) for barrier in refusal.barriers)
        case Ground.REST_DAY:
            return "a day of rest after yesterday's work"
        case Ground.NOT_ASKED:
            return "its strand isn't among those of the class"


def _say_lack(course: Course, lack: Breach) -> str:
    match lack.fault:
        case Fault.PROPS:
            return f"no {_name_prop(course, lack.prop_id)} left in block {lack.block}"
        case Fault.CLOSE_LOOKS:
            return f"it would be new, and no close look is left in block {lack.block}"
        case Fault.TOO_MANY_NEW:
            return _say_enough(lack.there)
        case _:
            return f"the class would be {_say_minutes(lack.wanted - lack.there)} too long"


def _say_enough(news: int) -> str:
    match news:
        case 0:
            return "this class has nothing new for anybody"
        case 1:
            return "1 new lesson in one class is enough"
        case _:
            return f"{news} new lessons in one class are enough"


def say_breach(  # noqa: PLR0911  # one sentence a fault
    course: Course, breach: Breach, refusals: Iterable[Refusal] = ()
) -> str:
    """Say which rule a plan breaks, and where; why a lesson isn't allowed, refusals tell."""
    where = f"block {breach.block}: " if breach.block else ""
    who = f"{breach.person_id} " if breach.person_id else ""
    lesson = course.name_lesson(breach.lesson_id) if breach.lesson_id else ""
    match breach.fault:
        case Fault.EMPTY:
            return "it has no blocks: add one"
        case Fault.WRONG_PEOPLE:
            return f"{where}it needs one turn for each person of the class"
        case Fault.NOT_ALLOWED:
            return f"{where}{who}may not do {lesson} today{_say_why(course, breach, refusals)}"
        case Fault.WRONG_COUNT:
            return f"{where}{lesson} of {who}has another count"
        case Fault.WRONG_FAMILY:
            return f"{where}{lesson} of {who}is done in another position"
        case Fault.NO_LOOK_AT_NEW:
            return f"{where}{lesson} is new to {who}and needs a close look: set look: true"
        case Fault.NO_WARM_UP:
            return "block 1: it is work, and a class begins with a quiet block"
        case _:
            return f"{where}{_say_amount(course, breach, who, lesson)}"


def _say_why(course: Course, breach: Breach, refusals: Iterable[Refusal]) -> str:
    for refusal in refusals:
        if (refusal.person_id, refusal.version.lesson_id) == (breach.person_id, breach.lesson_id):
            return f": {say_refusal(course, refusal)}"
    return ""


def _say_amount(course: Course, breach: Breach, who: str, lesson: str) -> str:
    wanted, there = breach.wanted, breach.there
    match breach.fault:
        case Fault.PROPS:
            is_are = "is" if there == 1 else "are"
            return f"{wanted} × {_name_prop(course, breach.prop_id)}: {there} {is_are} there"
        case Fault.CLOSE_LOOKS:
            return f"{wanted} close looks, and {there} can be given"
        case Fault.TOO_OFTEN:
            most = "once is" if there == 1 else f"{there} are"
            return f"{who}does {lesson} {wanted} times, and {most} the most"
        case Fault.TOO_MANY_NEW:
            return f"{wanted} lessons are new to {who}and {there} are the most"
        case Fault.TOO_MANY_BLOCKS:
            return f"it has {wanted} blocks, and {there} are the most"
        case _:
            return f"it is {_say_minutes(wanted - there)} too long"


def say_wish(course: Course, wish: Wish) -> str:
    """Say which strand goes without whom, and what would help."""
    strand = course.vocabulary.strands[wish.strand_id].title
    help_ = say_change(course, wish.change)
    if wish.blockers:
        help_ = f"{', '.join(wish.blockers)} would have nothing to do in such a block"
    return f"{strand} for {', '.join(wish.people)}: {help_}"


def say_change(course: Course, change: Change | None) -> str:
    """Say the smallest change that would allow something."""
    if change is None:
        return "no more time, props or coaches would help"
    if change.is_none:
        return "there is room for it, at the cost of more elsewhere"
    parts = []
    if change.minutes:
        parts.append(_say_minutes(change.minutes * _MINUTE) + " more")
    parts += [f"{number} more {_name_prop(course, prop)}" for prop, number in change.props.items()]
    if change.news:
        parts.append(f"{change.news} more new for each person")
    if change.coaches:
        parts.append(f"{change.coaches} more {'coach' if change.coaches == 1 else 'coaches'}")
    if change.left_out:
        parts.append(f"the class without {', '.join(change.left_out)}")
    least = "" if change.is_smallest else ", or less"
    return f"{' and '.join(parts)} would allow it{least}"


def _say_minutes(seconds: int) -> str:
    minutes = -(-seconds // _MINUTE)
    return f"{minutes} {'minute' if minutes == 1 else 'minutes'}"


def _join(course: Course, lesson_ids: tuple[str, ...]) -> str:
    *first, last = (course.name_lesson(name) for name in lesson_ids)
    return f"{', '.join(first)} and {last}" if first else last


def _name_prop(course: Course, prop_id: str) -> str:
    prop = course.vocabulary.props.get(prop_id)
    return prop.title if prop else prop_id
