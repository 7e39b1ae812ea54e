"""The practice tracks that lesson pages link to."""

from pathlib import Path

from builder.course.course import Course
from builder.publishing.pages.links import track_file
from builder.publishing.tracks import has_track, make_track, name_track


def write_tracks(course: Course, folder: Path) -> None:
    """Write one track for each tempo and dose of a course, where pages expect them."""
    drills = {
        name_track(lesson.drill): lesson.drill
        for lesson in course.lessons
        if has_track(lesson.drill)
    }
    for name, drill in sorted(drills.items()):
        path = folder / track_file(name)
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(make_track(drill))
