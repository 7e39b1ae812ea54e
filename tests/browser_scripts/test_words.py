"""The scripts' own words: in the site's language, with its plurals and numbers, else in English."""

import gettext
from io import BytesIO
from typing import Any

import pytest
from babel import Locale
from babel.messages.catalog import Catalog
from babel.messages.mofile import write_mo

from builder.course.course import Colours
from builder.language import Language, language_of
from builder.publishing.pages.assets import FOLDER, SCRIPTS, make_assets, write_words
from builder.publishing.pages.pacer import WORDS
from tests.browser_scripts.node import run_script

SPANISH = {
    "language": "es",
    "texts": {
        "Take out": "Quitar",
        "Take out {lesson}, {day}": "{day}: quitar {lesson}",
        "{day}: {lesson}, {outcome}": "{lesson} ({outcome}), {day}",
        "{before} and {last}": "{before} y {last}",
        "{count} practice": ["{count} práctica", "{count} prácticas"],
        "{count} day of {days}": ["{count} día de {days}", "{count} días de {days}"],
        "Show it": "",
        "{count} note": ["", ""],
    },
}


def speak(code: str, known: object = SPANISH, given: object = None) -> Any:
    """Return what the code makes of the words of a language."""
    start = "const w = globalThis.tempoleaf.speakIn(given.known); const { say, sayMany } = w;"
    return run_script(("words.js",), f"{start} {code}", {"known": known, "given": given})


def test_a_text_is_said_in_the_language_of_the_site() -> None:
    code = 'return [say("Take out"), say("Take out {lesson}, {day}", {lesson: "A", day: "1.5."})];'
    assert speak(code) == ["Quitar", "1.5.: quitar A"]


def test_what_has_no_translation_is_said_in_english() -> None:
    code = (
        'return [say("Go on"), say("Show it"), say("constructor"),'
        ' ...[1, 2].map((n) => sayMany("{count} note", "{count} notes", n)),'
        ' ...[1, 2].map((n) => sayMany("{count} card", "{count} cards", n))];'
    )
    assert speak(code) == [
        *("Go on", "Show it", "constructor", "1 note", "2 notes", "1 card", "2 cards"),
    ]


def test_a_number_takes_the_form_of_its_language() -> None:
    code = (
        "const many = (n) => sayMany('{count} practice', '{count} practices', n);"
        "return [0, 1, 2, 11, 1000000].map(many);"
    )
    assert speak(code) == [
        *("0 prácticas", "1 práctica", "2 prácticas", "11 prácticas", "1000000 prácticas"),
    ]
    assert speak(code, {"language": "de", "texts": {}})[:3] == [
        *("0 practices", "1 practice", "2 practices"),
    ]


def test_a_text_with_a_number_may_hold_more() -> None:
    code = 'return sayMany("{count} day of {days}", "{count} days of {days}", 1, { days: 28 });'
    assert speak(code) == "1 día de 28"


@pytest.mark.parametrize("root", ["en", "es", "de", "fr", "pl", "ru", "cs", "ja"])
def test_forms_are_in_the_order_of_a_catalogue(root: str) -> None:
    catalogue = Catalog(locale=root)
    forms = [str(form) for form in range(catalogue.num_plurals)]
    catalogue.add(("one", "many"), forms)
    compiled = BytesIO()
    write_mo(compiled, catalogue)
    compiled.seek(0)
    found = gettext.GNUTranslations(compiled)
    counts = [*range(130), 1000, 1001, 1002]
    code = 'return given.given.map((n) => sayMany("one", "many", n));'
    said = speak(code, {"language": root, "texts": {"one": forms}}, counts)
    assert said == [found.ngettext("one", "many", count) for count in counts]


def test_gaps_are_filled_once_and_numbers_written_as_the_language_does() -> None:
    code = (
        'return [w.fill("{a} {b} {c}", { a: "{b}", b: 4.5 }), w.number(1.25, 1), w.number(12.4, 0),'
        " w.number(2), w.number(12345.6)];"
    )
    assert speak(code) == ["{b} 4,5 {c}", "1,3", "12", "2", "12345,6"]
    british = {"language": "en-GB", "texts": {}}
    assert speak(code, british) == ["{b} 4.5 {c}", "1.3", "12", "2", "12345.6"]


def test_elements_stand_where_the_language_wants_them() -> None:
    values = '{ day: "lunes", lesson: ["a link"], outcome: "bien" }'
    code = f'return w.sayParts("{{day}}: {{lesson}}, {{outcome}}", {values});'
    assert speak(code) == [["a link"], " (", "bien", "), ", "lunes"]


def test_words_are_joined_as_in_a_sentence() -> None:
    code = 'return [[], ["a"], ["a", "b"], ["a", "b", "c"]].map(w.join);'
    assert speak(code) == ["", "a", "a y b", "a, b y c"]


def test_words_reach_the_scripts_as_a_file_that_loads_first() -> None:
    nothing = gettext.NullTranslations()
    spanish = Language("es-MX", Locale("es", "MX"), nothing, {"Go on": "Sigue </script> \u2028"})
    code = (
        "eval(given.given); const { wordsHere, speakIn } = globalThis.tempoleaf;"
        'return [wordsHere.language, speakIn(wordsHere).say("Go on")];'
    )
    assert speak(code, given=write_words(spanish)) == ["es-MX", "Sigue </script> \u2028"]
    assert SCRIPTS[:2] == (f"{FOLDER}/words_here.js", f"{FOLDER}/words.js")


@pytest.mark.parametrize(
    ("tag", "written"),
    [("en-GB", "en-GB"), ("en", "en-GB"), ("en-US", "en-US"), ("tlh", "en-GB")],
)
def test_a_course_without_a_catalogue_gets_english_with_its_dates(tag: str, written: str) -> None:
    code = "eval(given.given); return globalThis.tempoleaf.wordsHere;"
    assert speak(code, given=write_words(language_of(tag))) == {
        "language": written,
        "texts": {},
        "whole": "",
    }


def test_every_script_of_a_page_is_made() -> None:
    assert set(SCRIPTS) <= set(make_assets(Colours(), "es"))


def test_the_pacer_fills_no_gap_that_its_words_have_not() -> None:
    """What the scripts of the pacer fill in, by the name of the text."""
    assert {name: text for name, text in WORDS.items() if "{" in text} == {
        "set": "Set {number} of {count}",
        "breath": "breath {number} of {count}",
        "count": "Count {tempo}",
        "count_then": "Count {tempo}, then {next}",
        "with_where": "{word}. {where}",
        "with_side": "{word}, {side}",
    }
