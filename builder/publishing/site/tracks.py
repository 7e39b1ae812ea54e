"""The practice tracks that lesson pages link to."""

from pathlib import Path

from builder.publishing.pages.links import Site, track_file
from builder.publishing.tracks import has_track, name_track, render_track, write_flac, write_wav


def write_tracks(site: Site, folder: Path) -> None:
    """Write one track for each tempo and dose of a course, in both forms that pages name."""
    drills = {
        name_track(lesson.drill): lesson.drill
        for lesson in site.course.lessons
        if has_track(lesson.drill)
    }
    for name, drill in sorted(drills.items()):
        samples = render_track(drill)
        for ending, write in (("flac", write_flac), ("wav", write_wav)):
            path = folder / track_file(site, name, ending)
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(write(samples))
