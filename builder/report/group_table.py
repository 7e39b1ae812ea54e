"""The group as a short table for a terminal: one line a person."""

from builder.course.course import Course
from builder.planning.group import Group, GroupMember
from builder.report.days import say_day
from builder.report.progress_words import name_lesson


def write_group_table(course: Course, group: Group) -> str:
    """Write who has what to see to."""
    lines = [f"The group on {say_day(group.day)}: {len(group.members)} people"]
    width = max((len(_head(member)) for member in group.members), default=0)
    for member in group.members:
        told = "; ".join(_list_to_see(course, member)) or "nothing to see to"
        lines.append(f"{_head(member):<{width}}  {told}")
    if group.left_out:
        lines.append(f"left out, because their rows have faults: {', '.join(group.left_out)}")
    return "\n".join(lines)


def _head(member: GroupMember) -> str:
    return f"{member.person.id}  {member.person.name}"


def _list_to_see(course: Course, member: GroupMember) -> list[str]:
    told = [f"{course.name_condition(name)}: no answer" for name in member.unanswered]
    told += [f"{course.name_condition(name)}: old answer" for name in member.old_answers]
    if member.is_away:
        told.append(f"{member.overview.standing.weeks_away} weeks away")
    told += [f"stuck: {name_lesson(course, name)}" for name in member.stuck]
    if member.retests:
        told.append(f"{len(member.retests)} to measure")
    return told
