import pytest

from builder.publishing.pages.links import Site
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE

CASES = (
    ("index.md", "map.md", "map/", "map.html"),
    ("map.md", "index.md", "../", "index.html"),
    ("map.md", "lessons/breath/wide-ribs.md", "../lessons/breath/wide-ribs/", None),
    ("lessons/breath/wide-ribs.md", "lessons/breath/index.md", "../", "index.html"),
    ("lessons/breath/wide-ribs.md", "cards/wide-ribs.pdf", "../../../cards/wide-ribs.pdf", None),
    ("lessons/breath/index.md", "lessons/count/index.md", "../count/", "../count/index.html"),
    ("map.md", "map.md", "./", "map.html"),
)


def make_site(*, directory_urls: bool) -> Site:
    course = read_course(SMALL_COURSE).course
    assert course is not None
    return Site(course, directory_urls)


@pytest.mark.parametrize(("page", "target", "in_folders", "_as_files"), CASES)
def test_links_lead_from_folder_to_folder(
    page: str, target: str, in_folders: str, _as_files: str | None
) -> None:
    assert make_site(directory_urls=True).link(page, target) == in_folders


@pytest.mark.parametrize(
    ("page", "target", "as_files"), [(a, b, d) for a, b, _, d in CASES if d is not None]
)
def test_links_lead_from_file_to_file_where_a_host_wants_that(
    page: str, target: str, as_files: str
) -> None:
    assert make_site(directory_urls=False).link(page, target) == as_files


def test_a_link_carries_its_anchor() -> None:
    site = make_site(directory_urls=True)
    assert site.link("map.md", "safety.md", "notice-floor") == "../safety/#notice-floor"


def test_a_lesson_that_does_not_exist_has_no_address() -> None:
    assert make_site(directory_urls=True).link_lesson("map.md", "no-such-lesson") is None
