"""Whose voice speaks the pacer's words: one of the language, on the device where it can be."""

from typing import Any

import pytest

from tests.browser_scripts.node import run_script

SCRIPTS = ("words.js", "pacer_voice.js")


def voice(lang: str, *, local: bool = True) -> dict[str, Any]:
    return {"lang": lang, "localService": local}


@pytest.mark.parametrize(
    ("voices", "language", "chosen"),
    [
        ([voice("en-US"), voice("es-ES"), voice("es-MX")], "es-MX", 2),
        ([voice("en-US"), voice("es_MX"), voice("es_ES")], "es-ES", 2),
        ([voice("en-US"), voice("es-ES"), voice("es-MX")], "es", 1),
        ([voice("es-MX", local=False), voice("es-ES")], "es-MX", 1),
        ([voice("en-US"), voice("es-ES", local=False)], "es", 1),
        ([voice("en-US"), voice("est-EE")], "es", None),
        ([], "es", None),
    ],
    ids=["country", "underscores", "any country", "on the device", "elsewhere", "none", "empty"],
)
def test_a_voice_is_of_the_language(
    voices: list[dict[str, Any]], language: str, chosen: int | None
) -> None:
    code = (
        "return given.voices.indexOf(globalThis.tempoleaf.findVoice(given.voices, given.language));"
    )
    found = run_script(SCRIPTS, code, {"voices": voices, "language": language})
    assert found == (-1 if chosen is None else chosen)


def test_words_are_spoken_in_the_language_they_are_in() -> None:
    code = (
        "const spoken = []; globalThis.SpeechSynthesisUtterance = class {"
        " constructor(words) { this.words = words; } };"
        "globalThis.speechSynthesis = { getVoices: () => given, cancel() {},"
        " speak: (speech) => spoken.push(speech) };"
        'globalThis.tempoleaf.words = globalThis.tempoleaf.speakIn({language: "es", texts: {}});'
        'globalThis.tempoleaf.speak("Suelta el aire"); return spoken;'
    )
    spanish = voice("es-ES")
    assert run_script(SCRIPTS, code, [voice("en-GB"), spanish]) == [
        {"words": "Suelta el aire", "lang": "es", "voice": spanish}
    ]
