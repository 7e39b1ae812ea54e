"""A build that is killed: the old site stands or the new one, and the next build mends the rest."""

import sys
from pathlib import Path

import pytest

from tests.conftest import WriteCourse
from tests.killed_at_places import run_killed
from tests.made_once import A6_ONLY, lay_cards
from tests.trying import is_thorough

LESSON = "content/lessons/count/short-hold.md"
PAGE = "content/index.md"
"""An edit of a lesson prints its card and its pack anew in each try; one of a page doesn't."""
pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="processes are forked and killed")


def test_killed_at_each_place_a_site_is_old_or_new_and_the_next_build_ends_it(
    shelf: Path, write_course: WriteCourse
) -> None:
    project = write_course({"mkdocs.yml": A6_ONLY})
    lay_cards(shelf, project)
    edit = (LESSON if is_thorough() else PAGE, "\nAnd rest.\n")
    found = run_killed(project, edit, "build", "--quiet", thorough=is_thorough())
    assert found["faults"] == []
    assert found["changed"].startswith("site/")
    assert found["tries"] > 12


@pytest.mark.skipif(not is_thorough(), reason="the folder changes place as a site does")
def test_killed_at_each_place_a_folder_of_cards_is_old_or_new(write_course: WriteCourse) -> None:
    project = write_course({"mkdocs.yml": A6_ONLY})
    words = ("cards", "--quiet", "--packs", "--paper", "a6")
    found = run_killed(project, ("content/course.yml", "\n# edited\n"), *words, thorough=True)
    assert found["faults"] == []
    assert found["tries"] > 20
