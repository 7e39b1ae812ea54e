"""Styles, scripts and fonts of the site, all its own: no page asks anybody else for a file."""

import json
from collections.abc import Mapping
from pathlib import Path

from builder.course.course import Colours
from builder.language import Language, language_of
from builder.resources import find_templates
from builder.sums.shades import lighten_until_read

FOLDER = "assets/tempoleaf"
STYLES = (f"{FOLDER}/colours.css", f"{FOLDER}/site.css")
_WORDS_HERE = "words_here.js"
"""The words of the scripts in the language of the course; made, so it lies in no folder."""
_SCRIPT_NAMES = (
    *(_WORDS_HERE, "words.js"),
    *("dom.js", "practice_data.js", "practice.js", "site.js", "frame.js", "card_age.js"),
    *("figure.js", "schedule.js", "session.js", "tones.js", "clock.js"),
    *("pacer_words.js", "pacer_view.js", "pacer_sound.js", "pacer_voice.js"),
    *("echoes.js", "pacer.js", "qr.js", "hand_over.js", "take_along.js", "my_practice.js"),
    *("placement.js", "hold.js", "start_here.js", "offline.js"),
)
"""In the order in which they lean on each other."""
SCRIPTS = tuple(f"{FOLDER}/{name}" for name in _SCRIPT_NAMES)
FILE_WORKER = f"{FOLDER}/file_worker.js"
"""For a site on a disk, before the host's own scripts."""
FAVICON = f"{FOLDER}/leaf.svg"
_LICENCES = {
    "fonts/LICENSE.txt": Path("fonts", "LICENSE.md"),
    "theme-licence.txt": Path("licences", "theme.txt"),
}
"""Texts that must go with what a site passes on, by their place in it."""
NIGHT = "#151b1c"
"""The ground of the dark scheme."""
NIGHT_INK = "#e6ebe8"
_NIGHT_LEAST = 7.0
"""WCAG 2.2, 1.4.6, level AAA for text: links in the dark are thin and small."""
_ENGLISH, _BRITISH = "en", "en-GB"
"""A browser takes English without a country for that of the United States; ours is British."""


def make_assets(colours: Colours, language: str, whole: str = "") -> Mapping[str, bytes]:
    """Return every file that pages of the site load, by path.

    A language is its BCP 47 tag; ``whole`` leads from a part of a site to the whole of it.
    """
    templates = find_templates()
    files = {
        f"{FOLDER}/{path.name}": path.read_bytes()
        for path in sorted((templates / "assets").iterdir())
    }
    for path in sorted((templates / "fonts").glob("*.woff2")):
        files[f"{FOLDER}/fonts/{path.name}"] = path.read_bytes()
    for name, licence in _LICENCES.items():
        files[f"{FOLDER}/{name}"] = (templates / licence).read_bytes()
    files[f"{FOLDER}/{_WORDS_HERE}"] = write_words(language_of(language), whole).encode()
    return {**files, STYLES[0]: write_colours(colours).encode()}


def write_words(language: Language, whole: str = "") -> str:
    """Write the words of the site's scripts as a script of its own.

    What people keep on their devices belongs to the ``whole`` site, in whatever language.
    """
    tag = str(language.locale).replace("_", "-")
    known = {
        "language": _BRITISH if tag == _ENGLISH else tag,
        "texts": language.for_scripts,
        "whole": whole,
    }
    words = json.dumps({"wordsHere": known}, ensure_ascii=False, separators=(",", ":"))
    return f"globalThis.tempoleaf = Object.assign(globalThis.tempoleaf || {{}}, {words});\n"


def write_colours(colours: Colours) -> str:
    """Return the studio's colours as values that styles name, by day and by night."""
    values = {
        "ink": colours.ink,
        "accent": colours.accent,
        "paper": colours.paper,
        "night": NIGHT,
        "night-ink": NIGHT_INK,
        "night-accent": lighten_until_read(colours.accent, NIGHT, _NIGHT_LEAST),
    }
    lines = (f"  --tl-{name}: {value};" for name, value in values.items())
    return "\n".join((":root {", *lines, "}", ""))
