"""What search engines are told: the sitemaps.org protocol, and RFC 9309 for robots.txt."""

import gzip
import re
from pathlib import Path

import pytest

from builder.course.audience import Audience
from builder.mkdocs_parts import Order
from builder.mkdocs_plugin import build_site
from builder.publishing.site.crawlers import finish_for_crawlers
from builder.reading.course_folder import read_course
from builder.sums.version import find_version
from tests.conftest import WriteCourse

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
ADDRESS = "https://small.example/"
ENTRY = re.compile(r"<url><loc>(.*?)</loc>(?:<lastmod>(.*?)</lastmod>)?</url>")


def write_released(write_course: WriteCourse) -> Path:
    """Write the small course with one lesson released as it stands, and one as it stood before."""
    project = write_course({"mkdocs.yml": SETTINGS})
    course = read_course(project).course
    assert course is not None
    code = find_version(course, course.by_id["short-hold"], Audience.CLIENT)
    lines = [
        f'  - {{lesson: short-hold, card: client, code: "{code}", on: 2026-11-02, why: "First."}}',
        '  - {lesson: long-out, card: client, code: "00000", on: 2026-11-03, why: "First."}',
    ]
    ledger = "\n".join(("releases:", *lines, ""))
    (project / "content/releases.yml").write_text(ledger, encoding="utf-8")
    return project


def test_a_finished_site_lists_what_learners_read(write_course: WriteCourse) -> None:
    project = write_released(write_course)
    assert build_site(Order(project / "mkdocs.yml"), project / "site") == ()
    text = (project / "site/sitemap.xml").read_text(encoding="utf-8")
    listed = dict(ENTRY.findall(text))
    assert text.count("<loc>") == len(listed)
    assert f"{ADDRESS}lessons/count/short-hold/" in listed
    assert all(address.startswith(ADDRESS) for address in listed)
    assert not any("/authors/" in address for address in listed)
    pages = {address.removeprefix(ADDRESS) for address in listed}
    assert all((project / "site" / page / "index.html").is_file() for page in pages)


def test_a_day_stands_only_where_a_release_tells_it(write_course: WriteCourse) -> None:
    project = write_released(write_course)
    assert build_site(Order(project / "mkdocs.yml"), project / "site") == ()
    listed = dict(ENTRY.findall((project / "site/sitemap.xml").read_text(encoding="utf-8")))
    told = {address: day for address, day in listed.items() if day}
    assert told == {f"{ADDRESS}lessons/count/short-hold/": "2026-11-02"}


def test_the_packed_list_is_the_plain_one_and_holds_no_time(tmp_path: Path) -> None:
    (tmp_path / "sitemap.xml").write_text("<urlset/>", encoding="utf-8")
    finish_for_crawlers(tmp_path, ADDRESS)
    packed = (tmp_path / "sitemap.xml.gz").read_bytes()
    assert gzip.decompress(packed) == b"<urlset/>"
    assert packed[4:8] == bytes(4)  # the time of writing (RFC 1952, 2.3.1)


@pytest.mark.parametrize("address", [ADDRESS, "https://small.example"])
def test_a_site_at_a_hosts_root_tells_crawlers_of_its_list(tmp_path: Path, address: str) -> None:
    finish_for_crawlers(tmp_path, address)
    lines = (tmp_path / "robots.txt").read_text(encoding="utf-8").splitlines()
    assert "Sitemap: https://small.example/sitemap.xml" in lines
    assert "Disallow" not in "".join(lines)


def test_nobody_looks_for_robots_in_a_folder(tmp_path: Path) -> None:
    finish_for_crawlers(tmp_path, "https://small.example/course/")
    assert not (tmp_path / "robots.txt").exists()


def test_a_file_of_the_studios_own_stays(tmp_path: Path) -> None:
    (tmp_path / "robots.txt").write_text("User-agent: *\nDisallow: /\n", encoding="utf-8")
    finish_for_crawlers(tmp_path, ADDRESS)
    assert "Disallow: /" in (tmp_path / "robots.txt").read_text(encoding="utf-8")


def test_a_site_without_an_address_has_no_list(tmp_path: Path) -> None:
    for name in ("sitemap.xml", "sitemap.xml.gz"):
        (tmp_path / name).write_text("<urlset/>", encoding="utf-8")
    finish_for_crawlers(tmp_path, "")
    assert list(tmp_path.iterdir()) == []


def test_the_sites_of_other_languages_are_listed_too(tmp_path: Path) -> None:
    (tmp_path / "es").mkdir()
    entry = "  <url><loc>{}</loc></url>\n"
    for part, address in (("", ADDRESS), ("es", f"{ADDRESS}es/")):
        text = f"<urlset>\n{entry.format(address)}</urlset>\n"
        (tmp_path / part / "sitemap.xml").write_text(text, encoding="utf-8")
    finish_for_crawlers(tmp_path, ADDRESS, ["es"])
    text = (tmp_path / "sitemap.xml").read_text(encoding="utf-8")
    assert [address for address, _ in ENTRY.findall(text)] == [ADDRESS, f"{ADDRESS}es/"]
    assert text.rstrip().endswith("</urlset>")
