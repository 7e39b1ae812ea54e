"""The list of what a site keeps: all that a learner needs, and the same for the same site."""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from builder.publishing.site.offline import WORKER, write_worker
from builder.work.folder_files import FolderFiles

FILES = {
    "index.html": "home",
    "404.html": "nothing here",
    "lessons/count/box/index.html": "a lesson",
    "authors/O101/index.html": "a rule",
    "assets/a.js": "code",
    "assets/a.js.map": "map",
    "assets/javascripts/lunr/wordcut.js": "words",
    "search/search_index.json": "{}",
    "sitemap.xml": "map",
    "_headers": "headers",
    ".tempoleaf": "mark",
    "tracks/slow.wav": "loud",
    "tracks/slow.flac": "soft",
    "cards/box.pdf": "card",
    "cards/a6/box.pdf": "small card",
}


@pytest.fixture
def site(tmp_path: Path) -> Path:
    for name, text in FILES.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path


def edition_of(site: Path) -> dict[str, Any]:
    write_worker(FolderFiles(site))
    (text,) = re.findall(r"const edition = (.*);", (site / WORKER).read_text(encoding="utf-8"))
    edition: dict[str, Any] = json.loads(text)
    return edition


def test_pages_with_all_they_need_are_kept_at_once(site: Path) -> None:
    assert sorted(edition_of(site)["pages"]) == [
        "404.html",
        "assets/a.js",
        "index.html",
        "lessons/count/box/index.html",
        "search/search_index.json",
    ]


def test_small_sounds_and_own_cards_are_kept_on_request(site: Path) -> None:
    kept = edition_of(site)["kept"]
    assert {name: (group["bytes"], list(group["files"])) for name, group in kept.items()} == {
        "sounds": (4, ["tracks/slow.flac"]),
        "cards": (4, ["cards/box.pdf"]),
    }


def test_the_same_site_gives_the_same_file_and_another_one_not(site: Path) -> None:
    first = edition_of(site)
    assert edition_of(site) == first
    (site / "cards" / "box.pdf").write_text("card with a caution", encoding="utf-8")
    second = edition_of(site)
    assert second["code"] != first["code"]
    assert second["pages"] == first["pages"]


def test_a_group_without_files_is_not_offered(site: Path) -> None:
    (site / "tracks" / "slow.flac").unlink()
    assert list(edition_of(site)["kept"]) == ["cards"]
