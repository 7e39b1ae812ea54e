from typing import Any

from builder.publishing.site.edition import Edition, make_edition
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
