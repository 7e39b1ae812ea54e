"""Finds every word that the tool says by itself, and keeps the catalogues in step with them.

After a change of words: ``python tests/catalogues.py``, then fill what is empty in
``site_templates/words/*.po``. What the change took away is dropped from the catalogues.
"""

from collections.abc import Iterator, Mapping
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.pofile import read_po, write_po

ROOT = Path(__file__).parents[1]
WORDS = ROOT / "site_templates" / "words"
METHODS = [
    ("builder/machine/**.py", "ignore"),
    ("builder/cli/body_options.py", "ignore"),
    ("builder/cli/new_*.py", "ignore"),  # their ``say`` is another one
    ("builder/**.py", "python"),
    ("site_templates/**.html", "jinja2"),
    ("site_templates/**.md", "jinja2"),
    ("site_templates/**.j2", "jinja2"),
    ("site_templates/**.xhtml", "jinja2"),
    ("site_templates/assets/**.js", "javascript"),
    ("site_templates/class_screen/**.js", "javascript"),
]
KEYWORDS: Mapping[str, object] = {
    **dict.fromkeys(("say", "say_html", "mark"), None),
    "say_as": ((1, "c"), 2),
    "say_many": (1, 2),
    "sayMany": (1, 2),
    "sayParts": None,
    # Values of the course's own layer, which knows no languages.
    "Trait": (2,),
    "BasePose": (1,),
    "ReferenceBody": (1,),
}
"""The functions whose texts are words of the tool, in Python, templates and scripts."""


def find_words() -> Catalog:
    """Return every word of the tool with the places where it stands."""
    found = Catalog(fuzzy=False)
    for path, line, message, comments, context in _extract():
        found.add(message, None, [(path, line)], auto_comments=comments, context=context)
    return found


def _extract() -> Iterator[tuple[str, int, str | tuple[str, ...], list[str], str | None]]:
    for name in ("builder", "site_templates"):
        for path, *rest in extract_from_dir(
            ROOT / name,
            [(pattern.removeprefix(f"{name}/"), method) for pattern, method in METHODS],
            options_map={"**.js": {"parse_template_string": "true"}},
            keywords=KEYWORDS,
            strip_comment_tags=True,
        ):
            yield f"{name}/{path}", *rest


def read(path: Path) -> Catalog:
    """Read a catalogue as it stands."""
    with path.open("rb") as file:
        return read_po(file, locale=path.stem)


def main() -> None:
    """Bring every catalogue in step with the words, and say what is left to translate."""
    words = find_words()
    for path in sorted(WORDS.glob("*.po")):
        catalogue = read(path)
        catalogue.update(words, no_fuzzy_matching=True)
        catalogue.obsolete.clear()
        with path.open("wb") as file:
            write_po(file, catalogue, width=100, sort_by_file=True, include_lineno=False)
        empty = sum(1 for message in catalogue if message.id and not _is_filled(message.string))
        print(f"{path.name}: {len(catalogue)} texts, {empty} to translate")  # noqa: T201


def _is_filled(string: object) -> bool:
    return all(string) if isinstance(string, tuple | list) else bool(string)


if __name__ == "__main__":
    main()
