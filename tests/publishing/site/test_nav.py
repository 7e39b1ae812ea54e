from typing import Any

import pytest

from builder.publishing.site.edition import Edition, make_edition
from builder.publishing.site.nav import MOST_IN_LIST
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE, WriteCourse


def make(write_course: WriteCourse | None = None, **files: str) -> Edition:
    root = write_course(files) if write_course else SMALL_COURSE
    return make_edition(read_course(root), "content", ())


def list_paths(nav: Any) -> list[str]:
    """Return every path of a navigation in the order of reading."""
    if isinstance(nav, str):
        return [nav]
    parts = nav.values() if isinstance(nav, dict) else nav
    return [path for part in parts for path in list_paths(part)]


def test_every_page_stands_in_the_navigation_once() -> None:
    edition = make()
    paths = list_paths(edition.nav)
    assert len(paths) == len(set(paths))
    assert set(paths) == {path for path in edition.files if path.endswith(".md")}


def test_home_and_map_come_first_and_lessons_by_level() -> None:
    paths = list_paths(make().nav)
    assert paths[:3] == ["index.md", "my-practice.md", "map.md"]
    lessons = [path for path in paths if path.startswith("lessons/count/")]
    assert lessons[0] == "lessons/count/index.md"
    assert lessons[1] == "lessons/count/plain-count.md"


def test_a_page_of_the_studios_own_gets_its_place(write_course: WriteCourse) -> None:
    edition = make(write_course, **{"content/prices.md": "# Prices & <times>\n"})
    assert {"Prices & &lt;times&gt;": "prices.md"} in edition.nav


def list_lengths(nav: Any) -> list[int]:
    """Return how many entries each list of a navigation has, the whole of it first."""
    lists = [part for entry in nav if isinstance(entry, dict) for part in entry.values()]
    return [len(nav), *(n for part in lists if isinstance(part, list) for n in list_lengths(part))]


def add_strands(write_course: WriteCourse, count: int) -> Edition:
    text = (SMALL_COURSE / "content/course.yml").read_text(encoding="utf-8")
    rows = (
        f"  - {{id: more-{n}, title: More {n}, summary: More., aim: calm, minutes: 5}}\n"
        for n in range(3, count + 1)
    )
    more = text.replace("positions:\n", f"{''.join(rows)}positions:\n")
    return make(write_course, **{"content/course.yml": more})


def test_strands_stand_in_one_list_while_it_is_short(write_course: WriteCourse) -> None:
    nav = add_strands(write_course, MOST_IN_LIST).nav
    assert not any(title.startswith("Strands ") for entry in nav for title in entry)


@pytest.mark.parametrize("count", [MOST_IN_LIST + 1, 41, 500])
def test_no_list_grows_with_the_course(write_course: WriteCourse, count: int) -> None:
    edition = add_strands(write_course, count)
    own = edition.nav[3:-4]
    assert max(list_lengths(own)) <= MOST_IN_LIST
    strands = [path for path in list_paths(own) if path.endswith("/index.md")]
    assert strands == [path for path in list_paths(edition.nav) if path in strands]
    assert len(strands) == len(set(strands)) == count


def test_groups_say_which_strands_they_hold(write_course: WriteCourse) -> None:
    titles = [title for entry in add_strands(write_course, 41).nav for title in entry]
    assert titles[3:6] == ["Strands 1 to 13", "Strands 14 to 27", "Strands 28 to 41"]
