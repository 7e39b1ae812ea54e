"""Notices: every trait has its caution, and every caution is sourced, fresh and in use."""

from collections.abc import Iterable, Iterator

from builder import rules
from builder.course.course import Course
from builder.course.lesson import Lesson, Waiver
from builder.course.notice import Action, Source
from builder.course.trait import is_loaded
from builder.findings import Finding, Place

_NEEDS_STOP_SIGNS = ("breath-hold", "prone")
_NOBODY = frozenset({"", "nobody"})


def find_traits_without_notice(course: Course) -> Iterator[Finding]:
    """Report traits of a lesson that call for a notice and have none that is shown."""
    for lesson in course.lessons:
        shown = {name for notice in course.notices_for(lesson) for name in notice.traits}
        for name in sorted(course.traits_by_lesson[lesson.id] - shown):
            trait = course.traits.get(name)
            if trait is None or not trait.needs_notice:
                continue
            waived = [notice.id for notice in course.notices if name in notice.traits]
            fact, cure = (
                f'"{name}" ({trait.title}) has no notice',
                f"write one with traits: [{name}]",
            )
            if waived:
                fact = f'"{name}" ({trait.title}) is left without its notice "{waived[0]}"'
                cure = "take the waiver out, or write another notice for it"
            yield rules.TRAIT_WITHOUT_NOTICE.at(_place_of_trait(lesson, name), fact, cure)


def find_notices_without_lesson(course: Course) -> Iterator[Finding]:
    """Report notices that no lesson calls for, unless a lesson's file couldn't be read."""
    if course.unreadable or not course.lessons:
        return
    for notice in course.notices:
        if not any(notice.concerns(traits) for traits in course.traits_by_lesson.values()):
            yield rules.NOTICE_WITHOUT_LESSON.at(
                notice.at("traits"),
                f"no lesson has the trait {_name_either(notice.traits)}",
                "mend the traits, or delete the notice",
            )


def find_notices_past_review(course: Course) -> Iterator[Finding]:
    """Report notices that nobody has looked over for longer than the course's limit."""
    limit = course.settings.limits.review_days
    for notice in course.notices:
        if notice.reviewed is None:
            fact = "nobody has looked it over"
        elif (course.day - notice.reviewed.on).days > limit:
            day = notice.reviewed.on.isoformat()
            fact = f"it was last looked over on {day}, over {limit} days ago"
        else:
            continue
        cure = "read it against its sources and give the new date"
        yield rules.NOTICE_PAST_REVIEW.at(notice.at("reviewed.on"), fact, cure)


def find_notices_without_source(course: Course) -> Iterator[Finding]:
    """Report notices without a source, and sources without title, publisher or year."""
    for notice in course.notices:
        if not notice.sources:
            yield rules.NOTICE_WITHOUT_SOURCE.at(
                notice.at("sources"),
                "nothing says where this caution comes from",
                "give title, publisher and year, or common_practice: true",
            )
        for index, source in enumerate(notice.sources):
            missing = _missing_parts(source)
            if missing:
                yield rules.NOTICE_WITHOUT_SOURCE.at(
                    notice.at(f"sources.{index}"),
                    f"the source has no {' and no '.join(missing)}",
                    "name it in full, or say common_practice: true",
                )


def find_waivers_without_reason(course: Course) -> Iterator[Finding]:
    """Report waivers that don't say why, in more than a word, or by whom."""
    for lesson, waiver in _waivers(course):
        key = f"waive.{waiver.notice_id}"
        if len(waiver.reason.split()) < 2:
            yield rules.WAIVER_WITHOUT_REASON.at(
                lesson.at(f"{key}.reason"),
                f'"{waiver.reason}" is no reason to leave "{waiver.notice_id}" out',
                "say why nobody needs the caution here",
            )
        if waiver.review.by.strip().lower() in _NOBODY:
            yield rules.WAIVER_WITHOUT_REASON.at(
                lesson.at(f"{key}.by"),
                f'nobody answers for leaving "{waiver.notice_id}" out',
                "name who decided it in by",
            )


def find_waivers_of_nothing(course: Course) -> Iterator[Finding]:
    """Report waivers of notices that the lesson wouldn't carry anyway."""
    notices = {notice.id: notice for notice in course.notices}
    for lesson, waiver in _waivers(course):
        notice = notices.get(waiver.notice_id)
        if notice is None:
            fact = f'no notice has the id "{waiver.notice_id}"'
        elif not notice.concerns(course.traits_by_lesson[lesson.id]):
            fact = f'nothing here calls for "{waiver.notice_id}"'
        else:
            continue
        yield rules.WAIVER_HIDES_NOTHING.at(
            lesson.at(f"waive.{waiver.notice_id}"), fact, "take the waiver out"
        )


def find_refused_waivers(course: Course) -> Iterator[Finding]:
    """Report waivers of cautions that stand on every lesson, or that tell people to stop."""
    notices = {notice.id: notice for notice in course.notices}
    for lesson, waiver in _waivers(course):
        notice = notices.get(waiver.notice_id)
        if notice and (notice.everywhere or notice.action is Action.STOP):
            why = "stands on every lesson" if notice.everywhere else "tells people to stop"
            yield rules.WAIVER_REFUSED.at(
                lesson.at(f"waive.{notice.id}"),
                f'"{notice.id}" {why}, and no lesson may leave it out',
                "take the waiver out",
            )


def find_missing_stop_signs(course: Course) -> Iterator[Finding]:
    """Report lessons with load, a hold or the face down that don't say when to stop."""
    for lesson in course.lessons:
        traits = course.traits_by_lesson[lesson.id]
        reasons = [course.traits[name].title for name in _NEEDS_STOP_SIGNS if name in traits]
        if is_loaded(lesson.drill):
            reasons.append("working against a load")
        if reasons and not lesson.words.stop_if:
            yield rules.STOP_SIGNS_MISSING.at(
                lesson.at("stop_if"),
                f"{' and '.join(reasons)}, and no word on when to stop",
                "give one or two signs in stop_if",
            )


def find_missing_adaptations(course: Course) -> Iterator[Finding]:
    """Report notices that ask to adapt the drill without saying how."""
    for notice in course.notices:
        if notice.action is Action.ADAPT and not notice.adapt.strip():
            yield rules.ADAPT_MISSING.at(
                notice.at("action"),
                "it asks to adapt the drill and doesn't say how",
                "say in adapt what the drill becomes",
            )


def _missing_parts(source: Source) -> tuple[str, ...]:
    if source.common_practice:
        return ()
    parts = {"title": source.title, "publisher": source.publisher, "year": source.year}
    return tuple(name for name, value in parts.items() if not value)


def _name_either(traits: Iterable[str]) -> str:
    return " or ".join(f'"{name}"' for name in sorted(traits))


def _waivers(course: Course) -> Iterator[tuple[Lesson, Waiver]]:
    for lesson in course.lessons:
        for waiver in lesson.waivers:
            yield lesson, waiver


def _place_of_trait(lesson: Lesson, name: str) -> Place:
    """Return the place of what gives a lesson a trait."""
    drill = lesson.drill
    if name in drill.named_traits:
        return lesson.at("traits")
    if name in drill.position.traits or name in ("floor-transfer", "balance"):
        return lesson.at("position")
    for use in drill.props:
        if name in use.prop.traits or (name == "load" and use.prop.load):
            return lesson.at(f"props.{use.prop.id}")
    return lesson.at("moving" if name == "moving-limbs" else "tempo")
