"""The types of the site's scripts, held to their declarations by a checker made by others."""

import re
import shutil
from pathlib import Path

import pytest

from tests.browser_scripts.node import ASSETS, check_types

TEMPLATES = ASSETS.parent


def test_no_script_breaks_its_types() -> None:
    assert check_types(TEMPLATES) == ""


def test_the_service_worker_breaks_no_type() -> None:
    assert check_types(TEMPLATES / "worker") == ""


def test_nothing_hushes_the_checker() -> None:
    hushes = re.compile(r"@ts-|@(type|param|returns?) \{any\b")
    folders = ("assets", "class_screen", "worker")
    scripts = sorted(path for name in folders for path in (TEMPLATES / name).glob("*.js"))
    assert scripts
    assert [path.name for path in scripts if hushes.search(path.read_text("utf-8"))] == []


@pytest.mark.parametrize(
    ("name", "right", "wrong"),
    [
        ("pacer_sound.js", "t.schedule(session.plan, from, until)", 't.schedule("x")'),
        ("clock.js", "return (time - gone + from) / 1000;", 'return "soon";'),
        ("schedule.js", "{ makePlan, schedule, sideOf }", "{ makePlan, sideOf }"),
        ("site.js", 'slides sideways", { number: index + 1 })', 'slides sideways")'),
        ("take_along.js", "{ what: describe(offered) }", "{ who: describe(offered) }"),
    ],
    ids=["a call", "an answer", "a part that is not handed over", "a gap", "a gap's name"],
)
def test_what_is_wrong_is_found(tmp_path: Path, name: str, right: str, wrong: str) -> None:
    templates = shutil.copytree(
        TEMPLATES, tmp_path / "templates", ignore=shutil.ignore_patterns("fonts", "pictures")
    )
    script = templates / "assets" / name
    text = script.read_text("utf-8")
    assert text.count(right) == 1
    script.write_text(text.replace(right, wrong), encoding="utf-8")
    assert f"assets/{name}(" in check_types(templates)
