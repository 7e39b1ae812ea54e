"""A course as it is read and checked before anybody makes a page of it. Part of the shells."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from builder.checked.course import find_all, read_kept_course
from builder.findings import Finding, sort_findings
from builder.publishing.proof.sources import SETTINGS
from builder.publishing.site.files import find_own_file_faults
from builder.reading.course_folder import CourseReading
from builder.reading.folder_state import digest_sources
from builder.reading.unchanged import States, list_states, refuse_changed


@dataclass(frozen=True, slots=True)
class Looked:
    """What a look at a project came to."""

    project: Path
    content: str
    """The folder of the lessons, from the project."""
    reading: CourseReading
    findings: tuple[Finding, ...]
    lessons: int
    """How many were looked at, those with faulty files included."""
    states: States
    """Of all files of the course, before any of them was read."""
    sources: Mapping[str, str] = field(default_factory=dict)
    """SHA-256 of each text that the course was read from, by its path from the project."""

    def is_of(self, project: Path, content: str) -> bool:
        """Tell whether this was a look at a project and a folder in it."""
        return self.content == content and self.project.resolve() == project.resolve()

    def refuse_changed(self) -> None:
        """Raise BuilderError where a file isn't as it was when the course was read."""
        refuse_changed(self.states, *_list_places(self.project, self.content))


def look(project: Path, content: str) -> Looked:
    """Read a course, and find everything that is to be said about it and the files beside it."""
    states, sources = list_states(*_list_places(project, content)), digest_sources(project, content)
    reading = read_kept_course(project, content)
    checked = find_all(reading, project)
    findings = sort_findings((*checked.findings, *find_own_file_faults(project, content)))
    return Looked(project, content, reading, findings, checked.lessons, states, sources)


def look_unless_known(project: Path, content: str, language: str, known: Looked | None) -> Looked:
    """Read and check a course in one language, unless whoever asks has just done so.

    The build of the original, whose ``language`` is empty, tells the findings of all languages.
    """
    if language:
        states = list_states(*_list_places(project, content))
        sources = digest_sources(project, content)
        reading = read_kept_course(project, content).in_language(language)
        return Looked(project, content, reading, (), 0, states, sources)
    return known if known and known.is_of(project, content) else look(project, content)


def _list_places(project: Path, content: str) -> tuple[Path, Path]:
    return project / content, project / SETTINGS
