"""An output that lacks something makes its measurement worthless."""

from pathlib import Path

import pytest

from tests.bench import proofs
from tests.bench.process import BenchError

PAGE = "<html><article class=x>{}</article></html>"


def write(path: Path, text: str) -> Path:
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return path


def write_page(site: Path, name: str, words: str = "") -> Path:
    return write(site / "lessons" / "breath" / name / "index.html", PAGE.format(words))


def test_a_site_needs_a_whole_page_for_each_lesson(tmp_path: Path) -> None:
    page = write_page(tmp_path, "a")
    write(tmp_path / "lessons" / "breath" / "index.html", "a strand is no lesson")
    proofs.prove_pages(tmp_path, 1)
    with pytest.raises(BenchError, match="1 pages of lessons, not 2"):
        proofs.prove_pages(tmp_path, 2)
    page.write_text("<html>")
    with pytest.raises(BenchError, match="not whole"):
        proofs.prove_pages(tmp_path, 1)


def test_two_sites_must_say_the_same(tmp_path: Path) -> None:
    write_page(tmp_path / "own", "a", "breathe")
    other = write_page(tmp_path / "stock", "a", "breathe")
    proofs.prove_alike(tmp_path / "own", tmp_path / "stock")
    other.write_text(PAGE.format("breathe less"))
    with pytest.raises(BenchError, match="another page"):
        proofs.prove_alike(tmp_path / "own", tmp_path / "stock")


def test_cards_must_be_there_and_whole(tmp_path: Path) -> None:
    write(tmp_path / "a.pdf", "%PDF %%EOF")
    proofs.prove_cards(tmp_path, ["a"])
    with pytest.raises(BenchError, match="1 cards, not 2"):
        proofs.prove_cards(tmp_path, ["a", "b"])
    write(tmp_path / "b.pdf", "%PDF")
    with pytest.raises(BenchError, match="not whole"):
        proofs.prove_cards(tmp_path, ["a", "b"])


def test_a_card_that_lacks_much_is_no_card_to_compare_with(tmp_path: Path) -> None:
    naive = write(tmp_path / "naive" / "a.pdf", "x" * 95)
    write(tmp_path / "own" / "a.pdf", "x" * 100)
    proofs.prove_like_cards(tmp_path / "naive", tmp_path / "own")
    naive.write_text("x" * 80)
    with pytest.raises(BenchError, match="80 bytes and not about 100"):
        proofs.prove_like_cards(tmp_path / "naive", tmp_path / "own")


def test_packs_are_of_the_course_and_of_strands(tmp_path: Path) -> None:
    write(tmp_path / "packs" / "whole-course.pdf", "%%EOF")
    with pytest.raises(BenchError, match="1 packs"):
        proofs.prove_packs(tmp_path)
    write(tmp_path / "packs" / "breath.pdf", "%%EOF")
    proofs.prove_packs(tmp_path)


def test_a_check_must_tell_of_all_lessons() -> None:
    proofs.prove_told("3 notes in 2,000 lessons", 2000)
    with pytest.raises(BenchError, match="1000 lessons told of, not 2000"):
        proofs.prove_told("no findings in 1000 lessons", 2000)
    with pytest.raises(BenchError, match="0 lessons"):
        proofs.prove_told("", 2000)


def test_a_build_of_what_did_not_change_must_leave_every_file_as_it_was(tmp_path: Path) -> None:
    memory, page = proofs.Memory(), write_page(tmp_path, "a", "old")
    memory.keep(tmp_path)
    memory.compare(tmp_path)
    page.write_text(PAGE.format("new"))
    memory.compare_names(tmp_path)
    with pytest.raises(BenchError, match="1 files were"):
        memory.compare(tmp_path)
    write_page(tmp_path, "b")
    with pytest.raises(BenchError, match="new or gone"):
        memory.compare_names(tmp_path)


def test_a_change_must_arrive(tmp_path: Path) -> None:
    page = write_page(tmp_path, "a", "quietly")
    proofs.prove_said(page, "quietly")
    with pytest.raises(BenchError, match="did not arrive"):
        proofs.prove_said(page, "gently")
