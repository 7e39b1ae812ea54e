"""Courses of any size for the benchmarks: the demo course again and again, in other words.

Nothing of the tool is imported, so that a slow or broken tool can't bend what it is measured by.
Each copy of a lesson has an id, a title, a text and a figure of its own: what is made of it can't
be taken from another one.
"""

import re
import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import yaml

DEMO = Path(__file__).parents[2]
_LINK = re.compile(r"\[\[([a-z0-9-]+)(?:\|([^]]+))?\]\]")
_TO_PLACEMENT = re.compile(r"\[([^]]+)\]\(start-here\.md\)")
_REFERENCES = ("builds_on", "easier", "harder")
_TRANSLATED = re.compile(r"\.[a-z]{2}(-[A-Za-z]+)?\.(md|yml)$")
_NODS = {"prone": -4.0, "all-fours": -22.0, "supine": 8.0, "side-lying": 0.0}
"""How the head is held where a figure says nothing, in degrees; others stay as they are."""
_NOD_STEP = 0.05


class _PlainLoader(yaml.SafeLoader):
    """Takes "on" and "no" for words, as YAML 1.2 does."""


_PlainLoader.yaml_implicit_resolvers = {
    letter: [each for each in resolvers if each[0] != "tag:yaml.org,2002:bool"]
    for letter, resolvers in yaml.SafeLoader.yaml_implicit_resolvers.items()
}
_PlainLoader.add_implicit_resolver(
    "tag:yaml.org,2002:bool", re.compile(r"^(?:true|false)$"), list("tf")
)


def _load(text: str) -> dict[str, Any]:
    loaded: dict[str, Any] = yaml.load(text, _PlainLoader)  # noqa: S506  # a safe loader's child
    return loaded


@dataclass(frozen=True, slots=True)
class Pattern:
    """A lesson of the demo: its header, its body and the strand that it stands in."""

    id: str
    strand: str
    header: Mapping[str, Any]
    body: str


def write_course(folder: Path, lessons: int) -> None:
    """Write a course with so many lessons and host settings into a folder that isn't there yet."""
    content = folder / "content"
    shutil.copytree(DEMO / "content", content, ignore=_leave_out)
    shutil.copyfile(DEMO / "mkdocs.yml", folder / "mkdocs.yml")
    settings = _load((content / "course.yml").read_text(encoding="utf-8"))
    settings.pop("languages", None)
    patterns = list(_read_patterns([strand["id"] for strand in settings["strands"]]))
    made = [(copy, pattern) for copy, pattern in _count_out(patterns, lessons)]
    there = {_name(pattern.id, copy) for copy, pattern in made}
    for copy, pattern in made:
        _write_lesson(content, pattern, copy, there)
    settings["strands"] = list(_list_strands(settings["strands"], made))
    text = yaml.safe_dump(settings, sort_keys=False, allow_unicode=True)
    (content / "course.yml").write_text(text, encoding="utf-8")
    for page in (*content.glob("*.md"), *content.glob("notices/*.md")):
        words = _mend_links(page.read_text(encoding="utf-8"), 0, there)
        if lessons < len(patterns):
            words = _TO_PLACEMENT.sub(r"\1", words)
        page.write_text(words, encoding="utf-8")
    if lessons < len(patterns):  # some neighbours are cut off, so cards say less than they did
        for name in ("placement.yml", "releases.yml"):
            (content / name).unlink()


def change_words(folder: Path, lesson_path: str, words: str) -> None:
    """Write a word of a lesson's text anew, as a coach would who edits it."""
    path = folder / "content" / lesson_path
    text = path.read_text(encoding="utf-8")
    path.write_text(re.sub(r"(?m)^(1\. .*)$", rf"\1 {words}.", text, count=1), encoding="utf-8")


def list_lessons(folder: Path) -> list[str]:
    """Return the paths of all lessons, from the content folder."""
    content = folder / "content"
    return sorted(str(path.relative_to(content)) for path in content.glob("lessons/*/*.md"))


def list_ids(folder: Path) -> list[str]:
    """Return the ids of all lessons: the names of their files."""
    return [Path(path).stem for path in list_lessons(folder)]


def _leave_out(folder: str, names: list[str]) -> set[str]:
    return {name for name in names if name == "lessons" or _TRANSLATED.search(name)}


def _read_patterns(strands: list[str]) -> Iterator[Pattern]:
    for strand in strands:
        found = []
        for path in (DEMO / "content/lessons" / strand).glob("*.md"):
            if _TRANSLATED.search(path.name):
                continue
            _, header, body = path.read_text(encoding="utf-8").split("---\n", 2)
            found.append(Pattern(path.stem, strand, _load(header), body))
        yield from sorted(found, key=lambda each: (each.header["level"], each.id))


def _count_out(patterns: list[Pattern], lessons: int) -> Iterator[tuple[int, Pattern]]:
    for number in range(lessons):
        copy, place = divmod(number, len(patterns))
        yield copy, patterns[place]


def _name(lesson_id: str, copy: int) -> str:
    return f"{lesson_id}-{copy}" if copy else lesson_id


def _list_strands(
    strands: list[dict[str, Any]], made: list[tuple[int, Pattern]]
) -> Iterator[dict[str, Any]]:
    wanted = dict.fromkeys((copy, pattern.strand) for copy, pattern in made)
    by_id = {strand["id"]: strand for strand in strands}
    for copy, name in wanted:
        strand = by_id[name]
        title = f"{strand['title']}, part {copy}" if copy else strand["title"]
        yield {**strand, "id": _name(name, copy), "title": title}


def _write_lesson(content: Path, pattern: Pattern, copy: int, there: set[str]) -> None:
    header = dict(pattern.header)
    header["strand"] = _name(pattern.strand, copy)
    for key in _REFERENCES:
        names = [_name(name, copy) for name in header.get(key, ())]
        header[key] = [name for name in names if name in there]
    body = _mend_links(pattern.body, copy, there)
    if copy:
        header["title"] = f"{header['title']}, {copy}"
        header["summary"] = f"{header['summary'].rstrip('.')}, for the {copy}. time."
        header["figure"] = _turn_head(header, copy)
        body = re.sub(r"(?m)^(\d\. .*)$", rf"\1 This is part {copy}.", body)
    text = yaml.safe_dump(header, sort_keys=False, allow_unicode=True, width=10_000)
    path = content / "lessons" / _name(pattern.strand, copy) / f"{_name(pattern.id, copy)}.md"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(f"---\n{text}---\n{body}", encoding="utf-8")


def _turn_head(header: dict[str, Any], copy: int) -> dict[str, Any]:
    """Return a figure that no other copy has, where the position lets the head move freely."""
    figure = dict(header.get("figure") or {})
    nod = _NODS.get(header["position"])
    if nod is None:
        return figure
    start = dict(figure.get("start") or {})
    start["spine"] = {"nod": round(nod + _NOD_STEP * copy, 2), **(start.get("spine") or {})}
    figure["start"] = start
    return figure


def _mend_links(text: str, copy: int, there: set[str]) -> str:
    """Point links to the copy's own lessons; what isn't there becomes plain words."""

    def mend(match: re.Match[str]) -> str:
        name, words = _name(match[1], copy), match[2]
        if name in there:
            return f"[[{name}|{words}]]" if words else f"[[{name}]]"
        return words or match[1].replace("-", " ")

    return _LINK.sub(mend, text)
