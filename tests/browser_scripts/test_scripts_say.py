"""No script writes words of its own past ``say``, where no catalogue would ever find them."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

import pytest
from babel.messages.jslexer import Token, tokenize, unquote_string

from tests.browser_scripts.node import ASSETS
from tests.catalogues import find_words

FOLDERS = (ASSETS, ASSETS.parent / "class_screen")
SCRIPTS = sorted(
    path.relative_to(ASSETS.parent).as_posix() for each in FOLDERS for path in each.glob("*.js")
)
SAYS = {"say", "sayMany", "sayParts"}
FOR_DEVELOPERS = {"Error", "RangeError"}
SHOWN = {"textContent", "innerText", "ariaLabel", "title", "placeholder", "alt", "label"}
"""What shows or speaks a text that is assigned to it."""
SHOWING = {"append", "prepend", "replaceChildren", "createTextNode", "tell", "speak", "setText"}
"""What shows or speaks a text that it is called with."""
NO_WORDS = {
    "use strict": "a directive",
    "button, a": "a selector",
    "button, input, select, textarea, summary, a": "a selector",
    "input, select, textarea": "a selector",
    "breaths done": "the name of a column",
    "rest seconds": "the name of a column",
    "ArrowLeft": "the name of a key",
    "ArrowRight": "the name of a key",
    "Enter": "the name of a key",
    "Escape": "the name of a key",
    "label.md-header__button[for=__drawer], label.md-header__button[for=__search],": "a selector",
    "DOMContentLoaded": "the name of an event",
}
"""What looks like words and is none, with the reason."""

_GAP = re.compile(r"\$\{[^}]*\}")
_SELECTOR = re.compile(r"^[.#:(\[]|^input\[|\*/")
_WORDS = re.compile(r"[^\W\d_]{2,}\S* | [^\W\d_]{2,}|^[^\W\d_a-z][^\W\d_A-Z]+")
"""A word with a space beside it, or one that begins with a capital letter."""
_LETTERS = re.compile(r"[^\W\d_]{2,}")


@dataclass(frozen=True)
class Text:
    """A text that stands in a script."""

    words: str
    line: int
    call: str
    """The name of what it is an argument of."""
    is_shown: bool
    """Whether it goes straight to where it is read or heard."""


def list_texts(script: str) -> Iterator[Text]:
    """Yield every text of a script with what it is handed to."""
    calls: list[str] = []
    before: list[Token] = []
    target = ""  # what is assigned to, until the statement ends
    for token in tokenize(script, jsx=False, dotted=False):
        if token.type in ("linecomment", "multilinecomment"):
            continue
        last = before[-1] if before else Token("operator", ";", 0)
        if token.type == "operator":
            if token.value in ("(", "[", "{"):
                calls.append(last.value if token.value == "(" and last.type == "name" else "")
            elif token.value in (")", "]", "}"):
                calls.pop()
            elif token.value in ("=", "+="):
                target = last.value
            if token.value in (";", "{", "}"):
                target = ""
        if token.type in ("string", "template_string"):
            call = calls[-1] if calls else ""
            is_named = call == "setAttribute" and before[-2].value == '"aria-label"'
            is_shown = call in SHOWING or is_named or (target in SHOWN and call in ("", *SHOWN))
            is_first = last.value in ("(", ",")
            yield Text(
                unquote_string(token.value),
                token.lineno,
                call if is_first or call not in SAYS else "",
                is_shown,
            )
        before.append(token)


def find_unsaid(script: str) -> list[str]:
    """Return what a person would read or hear in English on every site."""
    return [
        f"{text.line}: {text.words}"
        for text in list_texts(script)
        if text.call not in SAYS | FOR_DEVELOPERS and text.words not in NO_WORDS and _is_words(text)
    ]


def _is_words(text: Text) -> bool:
    words = _GAP.sub("0", text.words)
    looks = _LETTERS if text.is_shown else _WORDS
    return not _SELECTOR.search(words) and bool(looks.search(words))


@pytest.mark.parametrize("name", SCRIPTS)
def test_a_script_says_all_its_words(name: str) -> None:
    assert find_unsaid((ASSETS.parent / name).read_text("utf-8")) == []


@pytest.mark.parametrize(
    "script",
    [
        'find("told").textContent = "nothing";',
        'button.textContent = on ? "stop" : "go";',
        'bar.append("here");',
        'svg.setAttribute("aria-label", "code");',
        'const NAMES = { ready: "Start the hold" };',
        "const told = `${done} of ${count}`;",
        "const told = `Added: ${rows}`;",
        'const unit = " seconds";',
        'const name = "Pause";',
        'say(on ? "Stop moving" : "Show it moving");',
        'say("{what} here", { what: "One practice" });',
        'tell("gone");',
        'document.title = "gone";',
    ],
)
def test_words_past_say_are_found(script: str) -> None:
    assert len(find_unsaid(script)) >= 1


@pytest.mark.parametrize(
    "script",
    [
        'find("told").textContent = say("Nothing");',
        'button.textContent = on ? say("Stop moving") : say("Show it moving");',
        'sayMany("{count} day", "{count} days", days.length, { name: "id" });',
        "throw new Error(`the page has no ${name}`);",
        't.findAll(list, "[data-tl-stop] a").forEach(mark);',
        'element.className = "tl-mine__act";',
        'find("told").textContent = list.join(", ");',
        '// It isn\'t "Said in English"',
    ],
)
def test_what_nobody_reads_is_left_alone(script: str) -> None:
    assert find_unsaid(script) == []


def test_every_word_that_a_script_says_is_in_the_catalogues() -> None:
    """A call inside another, or a text that is put together, is missed where words are gathered."""
    gathered = {
        text
        for message in find_words()
        if any(path.endswith(".js") for path, _ in message.locations)
        for text in ((message.id,) if isinstance(message.id, str) else message.id)
    }
    said = {
        text.words
        for name in SCRIPTS
        for text in list_texts((ASSETS.parent / name).read_text("utf-8"))
        if text.call in SAYS
    }
    assert len(said) > 40
    assert said == gathered
