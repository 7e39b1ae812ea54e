"""Proofs that a step did its work: what should be there is there, as often as it should."""

import hashlib
import re
from collections.abc import Sequence
from dataclasses import dataclass, field
from pathlib import Path

from tests.bench.process import BenchError

_ARTICLE = re.compile(r"<article[^>]*>(.*?)</article>", re.DOTALL)
_NUMBER = re.compile(r"(\d[\d,]*) lessons?")


def prove_pages(site: Path, lessons: int) -> None:
    """See that a site has a page for each lesson, and none of them is empty."""
    pages = list(site.glob("lessons/*/*/index.html"))
    _compare("pages of lessons", len(pages), lessons)
    _prove_whole(pages, b"</html>")


def prove_alike(site: Path, other: Path) -> None:
    """See that two sites have the same pages of lessons, and each says and draws the same."""
    for page in sorted(site.glob("lessons/*/*/index.html")):
        twin = other / page.relative_to(site)
        if not twin.is_file() or _find_article(page) != _find_article(twin):
            raise BenchError(f'"{page.relative_to(site)}" is another page on the other side')


def _find_article(page: Path) -> str:
    """Return what a page says, as the theme marks it."""
    found = _ARTICLE.search(page.read_text(encoding="utf-8"))
    if found is None:
        raise BenchError(f'"{page}" has no article')
    return found[1]


def prove_cards(folder: Path, lesson_ids: Sequence[str]) -> None:
    """See that a folder has a card for each lesson, each a whole PDF; others may be there too."""
    pdfs = [path for name in lesson_ids if (path := folder / f"{name}.pdf").is_file()]
    _compare("cards", len(pdfs), len(lesson_ids))
    _prove_whole(pdfs, b"%%EOF")


def prove_like_cards(folder: Path, own: Path) -> None:
    """See that each card is about as large as the tool's own: nothing of it was left out.

    Where this was written they were alike byte for byte; a tenth leaves room for other subsets.
    """
    for path in sorted(folder.glob("*.pdf")):
        size, wanted = path.stat().st_size, (own / path.name).stat().st_size
        if abs(size - wanted) > wanted / 10:
            raise BenchError(f'"{path.name}" has {size:,} bytes and not about {wanted:,}')


def prove_packs(folder: Path) -> None:
    """See that packs are there: one for the whole course and at least one for a strand."""
    packs = list((folder / "packs").glob("*.pdf"))
    if len(packs) < 2 or not (folder / "packs" / "whole-course.pdf").is_file():
        raise BenchError(f"there are {len(packs)} packs; the course's own or a strand's is missing")
    _prove_whole(packs, b"%%EOF")


def prove_told(said: str, lessons: int) -> None:
    """See that a check looked at all lessons, by its own words."""
    numbers = [int(number.replace(",", "")) for number in _NUMBER.findall(said)]
    _compare("lessons told of", numbers[-1] if numbers else 0, lessons)


def prove_said(path: Path, words: str) -> None:
    """See that a page says certain words."""
    if words not in path.read_text(encoding="utf-8"):
        raise BenchError(f'"{path}" doesn\'t say "{words}": the change did not arrive')


def digest_file(path: Path) -> str:
    """Return a digest of a file."""
    return hashlib.sha256(path.read_bytes()).hexdigest()


@dataclass(slots=True)
class Memory:
    """What an earlier step of the same round left behind, to compare a later one with."""

    files: dict[str, str] = field(default_factory=dict)
    said: str = ""

    def keep(self, folder: Path) -> None:
        """Remember every file of a folder by its digest."""
        self.files = _digest_all(folder)

    def compare(self, folder: Path) -> None:
        """See that every file of a folder is as it was, to the letter, and none more is there."""
        there = _digest_all(folder)
        names = sorted(self.files.keys() | there.keys())
        unlike = [name for name in names if self.files.get(name) != there.get(name)]
        if unlike:
            raise BenchError(f"nothing was changed, but {len(unlike)} files were: {unlike[0]}")

    def compare_names(self, folder: Path) -> None:
        """See that the same files are there, whatever is in them."""
        unlike = sorted(self.files.keys() ^ _digest_all(folder).keys())
        if unlike:
            raise BenchError(f"{len(unlike)} files are new or gone: {unlike[0]}")


def _digest_all(folder: Path) -> dict[str, str]:
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    return {path.relative_to(folder).as_posix(): digest_file(path) for path in files}


def _compare(what: str, found: int, wanted: int) -> None:
    if found != wanted:
        raise BenchError(f"there are {found} {what}, not {wanted}")


def _prove_whole(paths: list[Path], end: bytes) -> None:
    for path in paths:
        if end not in path.read_bytes()[-64:]:
            raise BenchError(f'"{path}" is not whole')
