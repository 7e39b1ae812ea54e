"""A class screen as one text: words, styles, scripts, drawings and letters stand in it."""

import json
from collections.abc import Mapping
from hashlib import sha256

from markupsafe import Markup

from builder.course.course import Colours
from builder.drawing.labels import labels_in
from builder.language import Language, language_of
from builder.publishing.class_screen.figures import draw_figures
from builder.publishing.class_screen.proof import prove_class_screen
from builder.publishing.class_screen.tiles import list_blocks, list_others, list_turns
from builder.publishing.environment import open_templates
from builder.publishing.letters import write_faces
from builder.publishing.pages.assets import NIGHT, NIGHT_INK, write_words
from builder.publishing.pages.pacer import WORDS
from builder.publishing.site.policy import add_closed_policy
from builder.publishing.views.class_view import ClassView
from builder.resources import find_templates
from builder.sums.shades import lighten_until_read

_FOLDER = "class_screen"
_TEMPLATE = "screen.html.j2"
_SHARED_SCRIPTS = (
    *("words.js", "dom.js", "practice_data.js", "schedule.js", "session.js", "tones.js"),
    *("clock.js", "pacer_words.js", "pacer_sound.js", "echoes.js", "hold.js"),
)
_OWN_SCRIPTS = (
    *("class_run.js", "class_state.js", "class_fit.js", "class_rows.js", "class_store.js"),
    *("class_backup.js", "class_tiles.js"),
    *("class_people.js", "class_panel.js", "class_file.js", "class_screen.js"),
)
"""In the order in which they lean on each other."""
_NIGHT_LEAST = 7.0
"""WCAG 2.2, 1.4.6, level AAA for text: a screen is read at arm's length."""


def write_class_screen(view: ClassView) -> str:
    """Return the page of a class; it asks nobody for anything, and its title names no person.

    BuilderError where the finished page lacks what it must say.
    """
    language = language_of(view.language)
    turns = list_turns(view)
    figures = draw_figures(turns, labels_in(view.language))
    blocks = list_blocks(view, figures, language)
    others = list_others(view, figures)
    page = open_templates(_FOLDER).get_template(_TEMPLATE)
    html = page.render(
        view=view,
        tag=str(language.locale).replace("_", "-"),
        direction="rtl" if language.is_right_to_left else "ltr",
        day=language.date(view.day),
        blocks=blocks,
        others=others,
        figures=figures,
        style=Markup(_write_style(view.accent)),  # noqa: S704  # styles of ours
        scripts=[Markup(text) for text in _list_scripts(language)],  # noqa: S704  # scripts of ours
        values=_embed(_describe(view, language, [each.clock for each in blocks])),
        **language.sayings,
    )
    prove_class_screen(view, html)
    return add_closed_policy(html)


def _describe(
    view: ClassView, language: Language, clocks: list[Mapping[str, object]]
) -> Mapping[str, object]:
    """Return what the scripts know of the class."""
    said = {name: language.say(text) for name, text in WORDS.items()}
    return {
        "key": f"tempoleaf.class.1:{view.studio}/{view.title}",
        "day": view.day.isoformat(),
        "file": f"{view.title}.csv",
        "plan": _mark_plan(view),
        "names": {person: _mark(name) for person, name in _list_names(view)},
        "turns": [
            f"{number}/{turn.person_id}/{turn.lesson_id}"
            for number, block in enumerate((*view.blocks, *view.spare), 1)
            for turn in block.turns
        ],
        "people": [person for person, _ in view.people],
        "others": [
            {
                "person": other.person_id,
                "name": other.name,
                "blocks": [[turn.lesson_id for turn in turns] for turns in other.turns],
            }
            for other in view.others
        ],
        "blocks": clocks,
        "say": said | {"pause_button": language.say_as("button", "Pause")},
    }


def _mark_plan(view: ClassView) -> str:
    """Return a mark of what is planned when: a page made anew knows taps of another plan by it."""
    blocks = [
        (block.count, block.minutes, block.rest_seconds, turn.person_id, turn.name, turn.lesson_id)
        for block in (*view.blocks, *view.spare)
        for turn in block.turns
    ]
    return _mark(blocks)


def _list_names(view: ClassView) -> tuple[tuple[str, str], ...]:
    return (*view.people, *((other.person_id, other.name) for other in view.others))


def _mark(value: object) -> str:
    return sha256(json.dumps(value).encode()).hexdigest()[:16]


def _embed(values: object) -> Markup:
    """Write values as data in a page, so that nothing in them ends it."""
    text = json.dumps(values, ensure_ascii=False, separators=(",", ":"))
    return Markup(text.replace("<", "\\u003c"))  # noqa: S704  # escaped for this place


def _list_scripts(language: Language) -> list[str]:
    templates = find_templates()
    paths = (
        *(templates / "assets" / name for name in _SHARED_SCRIPTS),
        *(templates / _FOLDER / name for name in _OWN_SCRIPTS),
    )
    words = write_words(language).replace("</", "<\\/")
    return [words, *(path.read_text(encoding="utf-8") for path in paths)]


def _write_style(accent: str) -> str:
    templates = find_templates()
    colours = Colours(accent=accent)
    values = {
        "ink": colours.ink,
        "paper": colours.paper,
        "accent": accent,
        "night": NIGHT,
        "night-ink": NIGHT_INK,
        "night-accent": lighten_until_read(accent, NIGHT, _NIGHT_LEAST),
    }
    named = "".join(f"  --{name}: {value};\n" for name, value in values.items())
    sheet = (templates / _FOLDER / "screen.css").read_text(encoding="utf-8")
    return f"{write_faces()}:root {{\n{named}}}\n{sheet}"
