"""Folders that are laid by, and what of them a later one takes over."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from builder.work.left import SPARE
from builder.work.spare import lay_by, take_over
from builder.work.whole import MARK, replace_folder

WANTED = frozenset({"index.html", "lessons/reed/index.html"})


def write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


@pytest.fixture
def spare(tmp_path: Path) -> Path:
    """Give a spare with two wanted pages, and one that isn't."""
    for name in (*WANTED, "lessons/moss/index.html"):
        write(tmp_path / "kept" / name, name)
    return tmp_path / "kept"


def read_taken(spare: Path) -> dict[str, str]:
    """Return what a fresh folder has of a spare."""
    beside = spare.with_name("beside")
    (beside / "fresh").mkdir(parents=True)
    take_over(spare, beside / "fresh", WANTED)
    assert not spare.exists()
    files = (path for path in (beside / "fresh").rglob("*") if not path.is_dir())
    return {path.relative_to(beside / "fresh").as_posix(): path.read_text() for path in files}


def test_what_is_wanted_comes_and_nothing_else(spare: Path) -> None:
    taken = read_taken(spare)
    assert taken == {name: name for name in WANTED}
    assert not (spare.with_name("beside") / "fresh/lessons/moss").exists()


def share_file(page: Path) -> None:
    page.parents[3].joinpath("copy.html").hardlink_to(page)


def link_file(page: Path) -> None:
    page.rename(page.with_name("other.html"))
    page.symlink_to("other.html")


def lay_folder(page: Path) -> None:
    page.unlink()
    write(page / "deep" / "page.html", "in the way")


@pytest.mark.skipif(os.name == "nt", reason="rights and links are others on Windows")
@pytest.mark.parametrize(
    "change",
    [lambda page: page.chmod(0o600), share_file, link_file, lay_folder, Path.unlink],
)
def test_what_is_not_as_a_new_file_would_be_goes(
    spare: Path, change: Callable[[Path], None]
) -> None:
    change(spare / "lessons/reed/index.html")
    assert read_taken(spare) == {"index.html": "index.html"}


@pytest.mark.skipif(os.name == "nt", reason="rights are others on Windows")
def test_folders_with_other_rights_go(spare: Path) -> None:
    (spare / "lessons").chmod(0o700)
    assert read_taken(spare) == {"index.html": "index.html"}


@pytest.mark.skipif(os.name == "nt", reason="rights are others on Windows")
def test_a_spare_with_other_rights_is_left_alone(spare: Path) -> None:
    spare.chmod(0o700)
    assert read_taken(spare) == {}


def test_without_a_spare_the_folder_stays_empty(tmp_path: Path) -> None:
    assert read_taken(tmp_path / "none") == {}


def test_a_folder_that_is_not_empty_takes_nothing(spare: Path) -> None:
    write(spare.with_name("beside") / "fresh" / "own.txt", "own")
    take_over(spare, spare.with_name("beside") / "fresh", WANTED)
    assert [path.name for path in (spare.with_name("beside") / "fresh").iterdir()] == ["own.txt"]


def test_the_old_folder_is_laid_by_with_its_pages_alone(tmp_path: Path) -> None:
    target, spare = tmp_path / "site", tmp_path / "spare"
    for name in ("one.html", "two.html"):
        with replace_folder(target, leave=lambda old: lay_by(old, spare, ".html")) as fresh:
            write(fresh / "pages" / name, name)
            write(fresh / "cards" / "card.pdf", "card")
    assert [path.name for path in spare.rglob("*")] == ["pages", "one.html"]
    assert sorted(path.name for path in tmp_path.iterdir()) == ["site", "spare"]
    assert (target / MARK).is_file()


def test_a_spare_that_nobody_took_stays_as_it_is(spare: Path) -> None:
    target = spare.with_name("site")
    for _ in range(2):
        with replace_folder(target, leave=lambda old: lay_by(old, spare, ".html")):
            pass
    assert read_taken(spare) == {name: name for name in WANTED}


def test_what_a_killed_run_had_taken_goes(tmp_path: Path) -> None:
    for name in ("fresh", SPARE):
        write(tmp_path / ".site-aaaaaaaa" / name / "index.html", "half")
    with replace_folder(tmp_path / "site"):
        pass
    assert [path.name for path in tmp_path.iterdir()] == ["site"]
