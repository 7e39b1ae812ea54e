"""The practice tracks that lesson pages link to."""

import zlib
from pathlib import Path

from builder.course.lesson import Drill
from builder.publishing.cards.keys import key_piece
from builder.publishing.cards.run import Shelf, write_file
from builder.publishing.pages.links import Site, track_file
from builder.publishing.tracks import has_track, name_track, render_track, write_flac, write_wav

_FORMS = {"flac": write_flac, "wav": write_wav}


def write_tracks(site: Site, folder: Path, shelf: Shelf) -> None:
    """Write one track for each tempo and dose of a course, in both forms that pages name.

    What the cache has isn't rendered again.
    """
    drills = {
        name_track(lesson.drill): lesson.drill
        for lesson in site.course.lessons
        if has_track(lesson.drill)
    }
    for name, drill in sorted(drills.items()):
        for ending in _FORMS:
            write_file(folder / track_file(site, name, ending), _make(name, drill, ending, shelf))


def _make(name: str, drill: Drill, ending: str, shelf: Shelf) -> bytes:
    """Return a track; its name says all that it is made from."""
    key = key_piece("track", name, ending)
    piece = shelf.get(key)
    if piece is not None:
        return zlib.decompress(piece)
    content = _FORMS[ending](render_track(drill))
    shelf.put(key, zlib.compress(content, 1))
    return content
