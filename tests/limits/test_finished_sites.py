"""What `tempoleaf publish --check` reads of a folder that anybody may have filled."""

import gzip
import io
import json
import tarfile
import zipfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.input_limits import SITE_TEXT_BYTES
from builder.publishing.proof.finished.lists import find_list_faults
from builder.publishing.proof.finished.site import read_finished_site
from builder.publishing.proof.privacy.contents import list_pieces
from builder.publishing.proof.privacy.piece import UnreadableError

HOME = '<html><head><link rel="canonical" href="https://saltmarsh.example/"></head></html>'
DEEP = "[" * 100_000


@pytest.fixture
def site(tmp_path: Path) -> Path:
    (tmp_path / "index.html").write_text(HOME)
    return tmp_path


def told(site: Path) -> list[str]:
    return [str(finding) for finding in find_list_faults(read_finished_site(site))]


@pytest.mark.parametrize("name", ["search/search_index.json", "app.webmanifest", "sw.js"])
def test_lists_of_brackets_without_end_can_t_be_read(site: Path, name: str) -> None:
    """Python's reader calls itself for each bracket."""
    path = site / ("service-worker.js" if name == "sw.js" else name)
    path.parent.mkdir(exist_ok=True)
    path.write_text(f"const edition = {DEEP}" if name == "sw.js" else DEEP)
    assert all(" L106 file-unsound: " in each for each in told(site))


def test_linked_data_of_brackets_without_end_is_unsound(site: Path) -> None:
    data = f'<script type="application/ld+json">{DEEP}</script>'
    (site / "index.html").write_text(HOME.replace("</head>", f"{data}</head>"))
    assert not read_finished_site(site).heads["index.html"].is_sound


def test_a_packed_sitemap_is_unpacked_no_further_than_its_limit(site: Path) -> None:
    (site / "sitemap.xml").write_text("<urlset/>")
    with gzip.open(site / "sitemap.xml.gz", "wb") as file:
        for _ in range(300):
            file.write(b"\0" * 1_000_000)
    assert told(site) == [
        'sitemap.xml.gz:1:1: L105 stale-list: it lists other pages than "sitemap.xml"; build again.'
    ]


def test_a_page_larger_than_any_is_not_read(site: Path) -> None:
    with (site / "large.html").open("wb") as file:
        file.truncate(1 << 40)
    with pytest.raises(BuilderError, match=f"more than {SITE_TEXT_BYTES.most}"):
        read_finished_site(site)


def make_zip(parts: Iterator[tuple[str, bytes]]) -> bytes:
    target = io.BytesIO()
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as file:
        for name, content in parts:
            file.writestr(name, content)
    return target.getvalue()


def test_archives_in_one_another_share_one_limit() -> None:
    """Each inner archive keeps to it, and all of them together would take for ever."""
    inner = make_zip(iter([("a.txt", b" " * 90_000_000)]))
    outer = make_zip((f"{number}.zip", inner) for number in range(50))
    assert len(outer) < 10_000_000
    with pytest.raises(UnreadableError, match="unpacks to more"):
        list(list_pieces("a.zip", outer))


def test_a_tar_that_claims_too_much_is_not_unpacked() -> None:
    target = io.BytesIO()
    with tarfile.open(fileobj=target, mode="w"):
        entry = tarfile.TarInfo("a")
        entry.size = 1 << 40
        target.write(entry.tobuf())
    with pytest.raises(UnreadableError):
        list(list_pieces("a.tar", target.getvalue() + b"\0" * 1024))


def test_a_search_index_as_large_as_courses_have_is_read(site: Path) -> None:
    (site / "search").mkdir()
    docs = [{"location": "", "text": "x" * 1000}] * 5000
    (site / "search/search_index.json").write_text(json.dumps({"docs": docs}))
    assert told(site) == []
