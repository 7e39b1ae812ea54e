"""Commands that write for the coach, killed: each file is old or new, and the next run ends it."""

import sys
from pathlib import Path

import pytest

from tests.conftest import WriteCourse
from tests.killed_at_places import run_killed
from tests.made_once import A6_ONLY, lay_cards
from tests.spanish import speak_spanish
from tests.trying import is_thorough

CLASS = "program/classes/2026-09-22-early.yml"
WEEKS = "program/courses/2026-12-01-winter.yml"
FILES = {
    "mkdocs.yml": A6_ONLY,
    "program/people.csv": "id,display name,conditions\nR1,Rosa,\nP2,Pim,\n",
    "program/attendance.csv": "date,person,lesson,outcome\n2026-09-07,R1,hand-on-belly,ready\n",
    CLASS: "people: [R1, P2]\nminutes: 45\n",
    WEEKS: "people: [R1]\nweeks: 2\nweekdays: [tue]\nminutes: 45\naim: [short-hold]\n",
}
ATTENDS = ("program/attendance.csv", "2026-09-09,R1,hand-on-belly,ready\n")
PLAN = ("program/plans/2026-09-22-early.yml", "# mine\n")
NOTHING = ("", "")
ON = ("--on", "2026-09-15")
WORDS = {
    "a plan": (PLAN, ("class", "classes/2026-09-22-early.yml", "--anew", "--quiet")),
    "a class": (NOTHING, ("class", "classes/2026-09-22-early.yml", "--print", "--quiet")),
    "sheets": (ATTENDS, ("sheet", "R1", "--quiet", *ON)),
    "a group": (ATTENDS, ("group", *ON)),
    "class files": (NOTHING, ("weeks", "courses/2026-12-01-winter.yml", "--write", *ON)),
    "a release": (NOTHING, ("release",)),
    "agreements": (NOTHING, ("translate", "es", "--agree")),
    "drafts": (NOTHING, ("translate", "es", "--draft")),
    "cards": (NOTHING, ("cards", "--quiet", "--paper", "a6")),
}
DEAR = {"sheets", "a group", "a class", "cards"}
"""Each try prints: so there is one for each file of code."""
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="processes are forked and killed")


@pytest.mark.parametrize("kind", WORDS)
def test_killed_at_each_place_what_a_command_writes_is_old_or_new(
    shelf: Path, write_course: WriteCourse, kind: str
) -> None:
    if kind == "sheets" and not is_thorough():
        pytest.skip("what writes them is killed at each step without printing")
    edit, words = WORDS[kind]
    project = write_course(FILES)
    if kind == "cards":
        lay_cards(shelf, project)
    if words[0] == "translate":
        speak_spanish(project, agree=False)
        for name in ("safety", "glossary", "index")[: 3 * ("--draft" in words)]:
            (project / f"content/{name}.es.md").unlink(missing_ok=True)
    found = run_killed(project, edit, *words, thorough=is_thorough() or kind not in DEAR)
    assert found["faults"] == []
    assert found["changed"]
    assert found["tries"] > 2
