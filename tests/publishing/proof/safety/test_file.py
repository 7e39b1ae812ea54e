"""The file of a proof: by its published schema, the same each time, and with all its sources."""

import hashlib
import json
from pathlib import Path

import jsonschema
import pytest

from builder.errors import BuilderError
from builder.publishing.proof.safety.file import read_proof, write_proof
from builder.publishing.proof.safety.file_schema import read_proof_schema
from builder.publishing.proof.safety.put_down import take_up_parts
from tests.publishing.proof.safety.conftest import read_proof_of


def test_the_schema_is_one_and_holds_for_a_proof(site: Path) -> None:
    schema = read_proof_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.Draft202012Validator(schema).validate(read_proof_of(site))


def test_a_proof_reads_back_to_the_same_bytes(site: Path) -> None:
    content = (site / "proof.json").read_bytes()
    assert write_proof(read_proof(content)) == content


def test_every_source_has_the_mark_of_its_bytes(site: Path) -> None:
    proof = read_proof_of(site)
    content = site.parent / "content"
    texts = {p for p in content.rglob("*") if p.suffix in (".md", ".yml")}
    names = {path.relative_to(site.parent).as_posix(): path for path in texts}
    assert proof["sources"] == {
        name: hashlib.sha256(path.read_bytes()).hexdigest() for name, path in names.items()
    }


def test_a_lesson_names_what_it_was_made_from(site: Path) -> None:
    (edition,) = read_proof_of(site)["editions"]
    lesson = next(each for each in edition["lessons"] if each["id"] == "plain-count")
    assert lesson["sources"] == [
        "content/course.yml",
        "content/glossary.md",
        "content/lessons/count/plain-count.md",
        "content/notices/general.md",
        "content/notices/on-the-back.md",
    ] or set(lesson["sources"]) >= {"content/course.yml", "content/glossary.md"}


def test_everything_that_must_be_read_was_seen_everywhere(site: Path) -> None:
    (edition,) = read_proof_of(site)["editions"]
    for lesson in edition["lessons"]:
        wanted = {"caution", *(f"notice {name}" for name in lesson["notices"])}
        for artefact in lesson["artefacts"]:
            assert wanted <= {seen["name"] for seen in artefact["seen"]}
            assert all(seen["place"]["contrast"] >= 4.5 for seen in artefact["seen"])


def test_nothing_in_a_proof_tells_the_time_or_the_machine(site: Path) -> None:
    text = (site / "proof.json").read_text("utf-8")
    assert str(site.parent) not in text
    assert json.loads(text).keys() == {"form", "tool", "editions", "sources", "files"}


def test_a_language_that_brought_no_proof_stops_the_build(tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match='"es" brought no proof'):
        tuple(take_up_parts(tmp_path, ["es"]))
