"""The files around the lessons of a new course: site settings, a guide, publishing, editors."""

import json
import re
from pathlib import Path
from string import Template

from builder.machine.systems import PACKAGES, Part, System
from builder.reading.schema import SCHEMAS, write_json_schema
from builder.resources import find_lock, find_templates
from builder.starting.course_text import quote
from builder.starting.tool_source import find_requirement
from builder.starting.wishes import Wishes

SCHEMA_LINE = "# yaml-language-server: $schema=../.schemas/course.json\n"
"""Tells editors with a YAML language server where the schema of the course file is."""
_MARKDOWN = re.compile(r"([\\`*_\[\]<>&#|~])")
_KNOWN_SOURCE = (
    "Look into `requirements.txt`: it says where the tool comes from, and publishing installs it "
    "from there. Change the line when you change to another version."
)
_UNKNOWN_SOURCE = (
    "Write into `requirements.txt` where the tool comes from, because it was installed here from "
    "a folder and a web host can't reach that. One line does it: `tempoleaf @ git+https://…` with "
    "the address of the tool's repository, or `./tool/` and the name of a wheel file that you put "
    "into a folder `tool` here."
)


class _Form(Template):
    """Text with places such as ``§{name}``; a dollar sign means nothing."""

    delimiter = "§"


def make_project_files(wishes: Wishes, title: str) -> dict[str, bytes]:
    """Return every file of a new course that is not its content, by path."""
    folder = find_templates() / "new"
    values = _values(wishes, title)
    laid = {
        _unhide(path.relative_to(folder)): _fill(path.read_text(encoding="utf-8"), values).encode()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
    schemas = {
        f".schemas/{name}.json": json.dumps(write_json_schema(name), ensure_ascii=False, indent=2)
        for name in SCHEMAS
    }
    laid["requirements.lock"] = find_lock().read_bytes()
    return laid | {path: f"{text}\n".encode() for path, text in schemas.items()}


def _values(wishes: Wishes, title: str) -> dict[str, str]:
    requirement = find_requirement()
    debian = PACKAGES[System.DEBIAN]
    return {
        "name": _MARKDOWN.sub(r"\\\1", wishes.name),
        "title": quote(title),
        "requirement": requirement or "# tempoleaf @ git+https://…",
        "publish_step": _KNOWN_SOURCE if requirement else _UNKNOWN_SOURCE,
        "packages": " ".join((*debian[Part.PANGO], *debian[Part.SUBSETTER])),
    }


def _fill(text: str, values: dict[str, str]) -> str:
    return _Form(text).substitute(values)


def _unhide(path: Path) -> str:
    """Name a file as a new course has it; hidden ones are kept in sight among the templates."""
    return "/".join(re.sub(r"^dot-", ".", part) for part in path.parts)
