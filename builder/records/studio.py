"""How a studio shows itself on what it prints for its own people."""

from dataclasses import dataclass

from builder.course.course import Colours, Course


@dataclass(frozen=True, slots=True)
class StudioSettings:
    """What the studio's own file says; where it says nothing, what the course says."""

    name: str
    contact: str
    colours: Colours
    paper: str
    language: str
    """BCP 47."""
    timezone: str = ""
    """A name of the IANA time zone database; empty where nobody gave one."""


def take_from_course(course: Course) -> StudioSettings:
    """Return the settings of a studio that has no file of its own."""
    settings = course.settings
    return StudioSettings(
        settings.studio.name,
        settings.studio.contact,
        settings.colours,
        settings.paper,
        settings.language,
    )
