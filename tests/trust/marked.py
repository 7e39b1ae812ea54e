"""The small course with markup in every field that holds words: a trusted one, which is built."""

import json
from pathlib import Path

from builder.reading.text_file import split_header
from builder.reading.yaml_tree import Tree, read_yaml
from tests.conftest import copy_small_course

MARK = '<img src=x onerror=pwned()>"&lt;i&gt;{{7*7}}'
"""An element, a quote that would end an attribute, an entity, and a template's order."""
_WORDS = frozenset(
    {
        *("title", "summary", "caution", "name", "contact", "stand_in", "edition", "code", "unit"),
        *("short", "adapt", "publisher", "inhale", "exhale", "description", "by", "reason"),
        *("ready_when", "stop_if", "watch_for", "text", "ask_first", "why"),
    }
)


def mark_course(root: Path, *, with_notices: bool) -> Path:
    """Copy the small course, and put the mark behind the words of all its headers."""
    project = copy_small_course(root)
    files = [project / "content/course.yml", *project.glob("content/lessons/*/*.md")]
    if with_notices:
        files += project.glob("content/notices/*.md")
    for path in files:
        text = path.read_text(encoding="utf-8")
        file, _ = split_header(text, path.name) if path.suffix == ".md" else (None, [])
        tree, _ = read_yaml(file.header if file else text, path.name)
        assert tree is not None
        header = json.dumps(_mark(tree.values, ""), ensure_ascii=False, indent=1) + "\n"
        path.write_text(f"---\n{header}---\n{file.body}" if file else header, encoding="utf-8")
    return project


def _mark(value: Tree, key: str) -> Tree:
    if isinstance(value, dict):
        return {name: _mark(part, name) for name, part in value.items()}
    if isinstance(value, list):
        return [_mark(part, key) for part in value]
    if isinstance(value, str) and key in _WORDS:
        return f"{value[:30]} {MARK}"
    return value
