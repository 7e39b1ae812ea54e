"""The proof of a course in two languages: each is held to the cautions in its own words."""

import json
import shutil
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from builder.course.course import Course
from builder.publishing.pages.links import Site
from builder.publishing.proof.safety.again import prove_again
from builder.publishing.proof.safety.claims import Written, claim_edition
from builder.publishing.proof.safety.proof_page import write_proof_page
from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY, build_once, lay_cards
from tests.publishing.proof.safety.conftest import read_proof_of, take_in
from tests.spanish import speak_spanish

LESSON = "hand-on-belly"


@pytest.fixture
def both(shelf: Path, tmp_path: Path) -> Path:
    """Give a finished site in English and Spanish, with its cards on A6, to spoil."""
    project = speak_spanish(copy_small_course(tmp_path / "project"))
    (project / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
    lay_cards(shelf, project)
    return build_once(shelf, project, strict=True)


def find_edition(site: Path, language: str) -> dict[str, Any]:
    editions = read_proof_of(site)["editions"]
    return next(each for each in editions if each["language"] == language)


def tell(site: Path, rule: str) -> list[str]:
    return [told for told in map(str, prove_again(site).findings) if rule in told]


def test_each_language_has_a_part_of_its_own_words_in_its_own_files(both: Path) -> None:
    assert prove_again(both).findings == ()
    spanish, english = (find_edition(both, language) for language in ("es", "en-GB"))
    assert (spanish["folder"], len(spanish["lessons"])) == ("es/", 2)
    assert spanish["caution"] != english["caution"]
    words = {notice["id"]: notice["words"] for notice in spanish["notices"]}
    assert words["general"].startswith("Para si")
    assert words.keys() == {notice["id"] for notice in english["notices"]}
    for lesson in spanish["lessons"]:
        wanted = {"caution", *(f"notice {name}" for name in lesson["notices"])}
        kinds = sorted(artefact["kind"] for artefact in lesson["artefacts"])
        assert kinds == ["card", "chapter", "pack", "pack", "page"]
        for artefact in lesson["artefacts"]:
            assert artefact["file"].startswith("es/")
            assert wanted <= {seen["name"] for seen in artefact["seen"]}


def test_cautions_in_another_language_are_none(both: Path) -> None:
    files = (
        *(f"lessons/breath/{LESSON}/index.html", f"cards/{LESSON}.pdf"),
        *("cards/packs/breath.pdf", "course.epub"),
    )
    for file in files:
        shutil.copy(both / file, both / "es" / file)
        take_in(both, f"es/{file}")
    told = tell(both, "E101")
    for file in files:
        own = [line for line in told if line.startswith(f"es/{file}:")]
        assert any("the caution of" in line for line in own)
        assert any(f'the notice "general" of "{LESSON}"' in line for line in own)


def test_a_language_that_the_proof_leaves_out_is_found_by_its_files(both: Path) -> None:
    proof = read_proof_of(both)
    proof["editions"] = [each for each in proof["editions"] if each["language"] != "es"]
    (both / "proof.json").write_text(json.dumps(proof), "utf-8")
    told = tell(both, "E104")
    assert any(line.startswith(f"es/cards/{LESSON}.pdf") for line in told), told
    assert any(line.startswith(f"es/lessons/breath/{LESSON}/") for line in told)


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en-GB", ("Proof of safety", "Page of the lesson", "Traits:")),
        ("es", ("Prueba de seguridad", "Página de la lección")),
        ("de", ("Nachweis der Sicherheit", "Seite der Lektion")),
    ],
)
def test_the_page_says_it_in_the_language_of_its_course(
    small_course: Course, language: str, said: tuple[str, ...]
) -> None:
    course = replace(small_course, settings=replace(small_course.settings, language=language))
    edition = claim_edition(Site(course), Written("content", {}, {}))
    page = write_proof_page(Site(course), edition, {}, lambda file: file)
    assert f'<html lang="{language}"' in page
    assert [words for words in said if words not in page] == []
    assert ("Proof of safety" in page) == (language == "en-GB")
