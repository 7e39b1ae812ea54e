"""The files of a class, opened for a command, and the plan put back beside them."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from builder.cli.open_program import OpenProgram, open_program, stop, tell
from builder.errors import BuilderError
from builder.planning.class_plan.planned import PlannedClass
from builder.publishing.coach_folder import say_class_files, write_class_files
from builder.publishing.views.class_in_words import view_class
from builder.records.class_order import ClassOrder
from builder.records.classes_folder import read_class_file
from builder.records.journal import hold_folder
from builder.records.plan import ClassPlan
from builder.records.plan_file import find_plan_path, keep_plan, read_plan_file
from builder.records.plan_text import PlanNotes
from builder.records.studio_file import read_studio_file
from builder.report.class_words import PlanView, say_left_out
from builder.work.left import mend_folders


@dataclass(frozen=True, slots=True)
class ClassDesk:
    """A class with all that a plan is made from, and the plan that is there."""

    opened: OpenProgram
    order: ClassOrder
    plan: ClassPlan | None

    def change_people(self, without: Sequence[str], add: Sequence[str]) -> tuple[str, ...]:
        """Return who comes; BuilderError for somebody unknown, or who isn't in the class."""
        people = list(self.plan.people if self.plan else self.order.people)
        for person in without:
            if person not in people:
                raise BuilderError(
                    f'"{person}" is not in this class', f"leave out one of {', '.join(people)}"
                )
            people.remove(person)
        people += [person for person in add if person not in people]
        if not people:
            raise BuilderError("nobody is left in this class", "leave fewer people out")
        for person in people:
            self.opened.find_person(person)
        return tuple(people)

    def say_left_out(self) -> tuple[str, ...]:
        """Return a line on rows that count for nobody here; none where all were read."""
        return say_left_out(self.opened.records.faults)

    def view(self, planned: PlannedClass) -> PlanView:
        """Return what is told of a plan."""
        return PlanView(self.opened.course, self.opened.program.people, planned)

    def keep(self, planned: PlannedClass) -> str:
        """Write a plan to its file, and say where it is."""
        course, folder = self.opened.course, self.opened.folder
        notes = PlanNotes(
            lesson_titles={lesson.id: lesson.title for lesson in course.lessons},
            family_titles=course.vocabulary.families,
            block_minutes=tuple(time.minutes for time in planned.score.times),
            class_people=self.order.people,
        )
        with hold_folder(folder):
            path, earlier = keep_plan(find_plan_path(folder, self.order), planned.plan, notes)
        kept = f" The one before is kept in {earlier}." if earlier else ""
        return f"The plan is in {path}: change it as you like, and run this again.{kept}"

    def hand_out(self, planned: PlannedClass) -> str:
        """Write what a coach takes to the class, and say where it is."""
        opened = self.opened
        studio, faults = read_studio_file(opened.folder, opened.course)
        if studio is None:
            stop(faults)
        view = view_class(opened.course, opened.program, planned, studio)
        return say_class_files(write_class_files(view, opened.project, studio.paper))


def open_desk(project: Path, given: Path | None, file: Path, *, is_anew: bool = False) -> ClassDesk:
    """Read the course, the records, the class and its plan; stop on faults of class and plan.

    Faults of a plan that another is to take the place of are only told.
    """
    opened = open_program(project, given)
    order, findings = read_class_file(opened.folder, opened.find_file(file), opened.known)
    if order is None:
        stop(findings)
    mend_folders(find_plan_path(opened.folder, order).parent)
    plan, faults = read_plan_file(opened.folder, opened.known, order)
    if faults and not is_anew:
        stop(faults)
    tell((*faults, *opened.records.findings))
    return ClassDesk(opened, order, plan)
