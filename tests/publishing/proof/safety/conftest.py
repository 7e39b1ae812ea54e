"""The small course's finished site, proved, for tests that spoil a copy of it."""

import hashlib
import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from builder.publishing.cards.record import CardRecord
from builder.publishing.proof.safety.sighting import Box
from tests.conftest import copy_small_course
from tests.made_once import A6_ONLY, build_once
from tests.publishing.proof.safety.pdf_edits import find_box

Change = Callable[[dict[str, Any]], object]


@pytest.fixture(scope="session")
def card(hold_card: CardRecord) -> bytes:
    return hold_card.pdf


@pytest.fixture(scope="session")
def box(card: bytes) -> Box:
    return find_box(card)


@pytest.fixture
def site(shelf: Path, tmp_path: Path) -> Path:
    """Give a finished site of the small course, with its cards on A6, to spoil."""
    project = copy_small_course(tmp_path / "project")
    (project / "mkdocs.yml").write_text(A6_ONLY, encoding="utf-8")
    return build_once(shelf, project, strict=True)


@pytest.fixture
def forge(site: Path) -> Callable[[Change], None]:
    """Change what a site's proof says, and nothing else."""

    def change(how: Change) -> None:
        path = site / "proof.json"
        proof = json.loads(path.read_text("utf-8"))
        how(proof)
        path.write_text(json.dumps(proof), "utf-8")

    return change


def read_proof_of(site: Path) -> dict[str, Any]:
    proof: dict[str, Any] = json.loads((site / "proof.json").read_text("utf-8"))
    return proof


def take_in(site: Path, file: str) -> None:
    """Have the proof take a spoilt file for the one that was built, as a forger would."""
    proof = read_proof_of(site)
    proof["files"][file] = hashlib.sha256((site / file).read_bytes()).hexdigest()
    (site / "proof.json").write_text(json.dumps(proof), "utf-8")


def copy_tree(site: Path, target: Path) -> Path:
    return shutil.copytree(site, target)
