"""A finished site proved again from its folder, after somebody spoilt it."""

import json
import os
import zipfile
from collections.abc import Callable
from io import BytesIO
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.course.trait import TRAITS
from builder.errors import BuilderError, InvalidValueError
from builder.publishing.cards.face import face_cards
from builder.publishing.cards.printing import print_card
from builder.publishing.proof.safety.again import prove_again
from builder.publishing.proof.safety.claims_check import find_false_claims
from builder.publishing.proof.safety.file import read_proof
from builder.publishing.proof.safety.unseen import list_looks
from builder.reading.course_folder import read_course
from builder.sums.paper import MM_PER_INCH, PAPERS, POINTS_PER_INCH
from tests.conftest import SMALL_COURSE
from tests.publishing.proof.safety.conftest import Change, read_proof_of, take_in

Forge = Callable[[Change], None]
LESSON = "short-hold"
CARRIED = ("caution", "notice floor", "notice general", "notice holding", "notice on-the-back")
"""All that stands on the lesson with a hold; the notice of slow breathing is on another."""
WANTED = (*((LESSON, name) for name in CARRIED), ("long-out", "notice slow"))
KINDS = ("page", "card", "pack", "chapter")


def tell(site: Path, rule: str = "") -> list[str]:
    return [told for told in map(str, prove_again(site).findings) if rule in told]


def find_lesson(site: Path, lesson: str) -> dict[str, Any]:
    (edition,) = read_proof_of(site)["editions"]
    return next(each for each in edition["lessons"] if each["id"] == lesson)


def find_artefacts(site: Path, lesson: str, kind: str) -> list[dict[str, Any]]:
    return [each for each in find_lesson(site, lesson)["artefacts"] if each["kind"] == kind]


def find_words(site: Path, name: str) -> str:
    (edition,) = read_proof_of(site)["editions"]
    words = {f"notice {notice['id']}": notice["words"] for notice in edition["notices"]}
    return str({**words, "caution": edition["caution"]}[name])


def test_a_site_as_it_was_built_is_proved(site: Path) -> None:
    proved = prove_again(site)
    assert proved.findings == ()
    assert (proved.lessons, proved.artefacts) == (5, 25)


def test_every_notice_of_the_small_course_is_among_those_taken_out(site: Path) -> None:
    (edition,) = read_proof_of(site)["editions"]
    names = {f"notice {notice['id']}" for notice in edition["notices"]}
    assert {name for _, name in WANTED} == names | {"caution"}


@pytest.mark.parametrize(("lesson", "name"), WANTED)
def test_a_notice_taken_out_of_finished_files_is_missed_in_each(
    site: Path, lesson: str, name: str
) -> None:
    artefacts = [each for kind in KINDS for each in find_artefacts(site, lesson, kind)]
    assert len(artefacts) == 5
    for artefact in artefacts:
        take_out(site, artefact, name, find_words(site, name))
        take_in(site, artefact["file"])
    told = tell(site, "E101")
    what = f'notice "{name.removeprefix("notice ")}"' if name.startswith("notice") else name
    for artefact in artefacts:
        assert any(
            line.startswith(f"{artefact['file']}:") and f'the {what} of "{lesson}"' in line
            for line in told
        ), told


def take_out(site: Path, artefact: dict[str, Any], name: str, words: str) -> None:
    path = site / artefact["file"]
    if artefact["kind"] == "page":
        spoil_text(path, words)
    elif artefact["kind"] == "chapter":
        spoil_chapter(path, f"EPUB/{artefact['chapter']}", words)
    else:
        cover(path, next(seen for seen in artefact["seen"] if seen["name"] == name)["place"])


def spoil_text(path: Path, words: str) -> None:
    text = path.read_text("utf-8")
    start = words[: words.index(" ", 12)]
    assert start in text
    path.write_text(text.replace(start, ""), "utf-8")


def spoil_chapter(path: Path, chapter: str, words: str) -> None:
    target = BytesIO()
    with zipfile.ZipFile(path) as book, zipfile.ZipFile(target, "w") as spoilt:
        for name in book.namelist():
            text = book.read(name)
            if name == chapter:
                start = words[: words.index(" ", 12)].encode()
                assert start in text
                text = text.replace(start, b"")
            spoilt.writestr(name, text)
    path.write_bytes(target.getvalue())


def cover(path: Path, place: dict[str, Any]) -> None:
    """Paint a white box over the spot where words stand."""
    box = {side: value / MM_PER_INCH * POINTS_PER_INCH for side, value in place["box"].items()}
    with pikepdf.open(path, allow_overwriting_input=True) as pdf:
        page = pdf.pages[place["page"] - 1]
        bottom = float(page.mediabox[3]) - box["top_mm"] - box["height_mm"]
        sides = (box["left_mm"] - 1, bottom - 1, box["width_mm"] + 2, box["height_mm"] + 2)
        page.contents_add(b"q", prepend=True)
        page.contents_add(("Q 1 1 1 rg {:.2f} {:.2f} {:.2f} {:.2f} re f".format(*sides)).encode())
        pdf.save()


@pytest.mark.parametrize(("lesson", "name"), [each for each in WANTED if each[1] != "caution"])
def test_a_card_printed_from_a_course_without_a_notice_is_found(
    site: Path, lesson: str, name: str
) -> None:
    from dataclasses import replace  # noqa: PLC0415

    course = read_small()
    kept = tuple(each for each in course.notices if f"notice {each.id}" != name)
    bare = replace(course, notices=kept)
    card = f"cards/{lesson}.pdf"
    faces = face_cards(bare, [bare.by_id[lesson]], Audience.CLIENT, [PAPERS["a6"]])
    (site / card).write_bytes(print_card(faces["a6"][0]).pdf)
    take_in(site, card)
    (line,) = tell(site, "E101")
    assert line.startswith(f"{card}:1:1: E101 notice-unseen: the notice")
    assert line.endswith("absent; put the file of the build back, or build the site again.")


def read_small() -> Course:
    course = read_course(SMALL_COURSE).course
    assert course is not None
    return course


def test_cards_whose_files_were_swapped_are_found(site: Path) -> None:
    one, other = site / "cards/short-hold.pdf", site / "cards/plain-count.pdf"
    first, second = one.read_bytes(), other.read_bytes()
    one.write_bytes(second)
    other.write_bytes(first)
    assert len(tell(site, "E102 lesson-unseen")) == 2
    assert any('"holding" of "short-hold"' in line for line in tell(site, "E101"))


SAMPLE = (
    *("index.html", "lessons/count/short-hold/index.html", "cards/short-hold.pdf"),
    *("cards/packs/whole-course.pdf", "course.epub", "service-worker.js", "_headers"),
    *("assets/tempoleaf/site.css", "assets/tempoleaf/site.js", "search/search_index.json"),
    *("proof/index.html", "previews/course.png", ".tempoleaf"),
)


def test_one_other_byte_in_a_file_is_found(site: Path) -> None:
    for name in SAMPLE:
        content = bytearray((site / name).read_bytes())
        content[len(content) // 2] ^= 1
        (site / name).write_bytes(content)
    told = [line.split(" file-changed")[0] for line in tell(site, "E105")]
    assert sorted(told) == sorted(f"{name}:1:1: E105" for name in SAMPLE)


def test_every_file_of_a_site_but_the_proof_has_its_mark(site: Path) -> None:
    files = {p.relative_to(site).as_posix() for p in site.rglob("*") if p.is_file()}
    assert set(read_proof_of(site)["files"]) == files - {"proof.json"}


def test_files_that_came_later_are_found(site: Path) -> None:
    names = ["news.html", "assets/other.css", "lessons/count/x.txt", ".x"]
    for name in names:
        (site / name).write_text("new", "utf-8")
    assert sorted(line.split(":1:1: ")[0] for line in tell(site)) == sorted(names)
    assert len(tell(site, "E107 file-added")) == len(names)


def test_files_that_are_gone_are_found(site: Path) -> None:
    names = ("safety/index.html", "_headers", "cards/packs/count.pdf")
    for name in names:
        (site / name).unlink()
    told = tell(site, "E106 file-lost")
    assert sorted(line.split(":1:1: ")[0] for line in told) == sorted(names)


def test_a_card_that_nothing_is_told_of_is_found(site: Path) -> None:
    (site / "cards/old-hold.pdf").write_bytes((site / "cards/short-hold.pdf").read_bytes())
    take_in(site, "cards/old-hold.pdf")
    (line,) = tell(site)
    assert line.startswith("cards/old-hold.pdf:1:1: E104 artefact-unclaimed")


@pytest.mark.parametrize("aim", ["/etc/hosts", "../project/mkdocs.yml", "index.html", "gone"])
def test_a_link_in_a_site_is_never_followed(site: Path, aim: str) -> None:
    (site / "x.html").symlink_to(aim)
    (site / "y").symlink_to("/etc")
    assert [line.split(" ")[1] for line in tell(site)] == ["E105", "E105"]


def test_a_card_that_is_a_link_to_the_very_same_card_is_found(site: Path, tmp_path: Path) -> None:
    card, aside = site / "cards/short-hold.pdf", tmp_path / "aside.pdf"
    card.rename(aside)
    card.symlink_to(aside)
    assert {line.split(" ")[1] for line in tell(site)} >= {"E101", "E105"}


def test_a_pipe_in_a_site_is_not_waited_for(site: Path) -> None:
    (site / "index.html").unlink()
    os.mkfifo(site / "index.html")
    assert tell(site)[0].startswith("index.html:1:1: E105")


BAD = {
    "empty": b"",
    "not json": b"{",
    "not text": b"\xff\xfe\x00",
    "a list": b"[]",
    "null": b"null",
    "deep": b'{"form":' + b"[" * 100_000 + b"]" * 100_000 + b"}",
    "doubled": b'{"form": 1, "form": 1}',
    "a huge number": b'{"form": ' + b"9" * 10_000 + b"}",
    "no number": b'{"form": NaN}',
    "half a letter": b'{"tool": "\\ud800"}',
}


@pytest.mark.parametrize("content", BAD.values(), ids=BAD)
def test_a_proof_that_is_none_is_told(site: Path, content: bytes) -> None:
    (site / "proof.json").write_bytes(content)
    (line,) = tell(site)
    assert line.startswith("proof.json:1:1: E108 proof-unsound: ")


def list_values(value: Any, way: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """List the way to each value in a proof; of a list's or object's parts the first will do."""
    ways = [way]
    if isinstance(value, list) and value:
        ways += list_values(value[0], (*way, 0))
    elif isinstance(value, dict):
        named = value if set(value) & {"form", "kind", "id", "page", "left_mm"} else {}
        for key in named or list(value)[:3]:
            ways += list_values(value[key], (*way, key))
    return ways


OTHERS: tuple[Any, ...] = (None, True, -1, 10**40, 1e300, "", "../../x", "\ud800", [], {}, [[]])


def test_whatever_stands_in_a_proof_it_is_refused_or_judged(site: Path) -> None:
    whole = read_proof_of(site)
    for way in list_values(whole)[1:]:
        for other in OTHERS:
            proof = json.loads(json.dumps(whole))
            holder = proof
            for step in way[:-1]:
                holder = holder[step]
            holder[way[-1]] = other
            judge(json.dumps(proof).encode())


def judge(content: bytes) -> None:
    """Judge what a proof says without reading any artefact, so that many tries take seconds."""
    try:
        proof = read_proof(content)
    except InvalidValueError:
        return
    for finding in find_false_claims(proof, proof.files):
        assert "\n" not in str(finding)
    for edition in proof.editions:
        assert len(list_looks(edition)) == sum(len(each.artefacts) for each in edition.lessons)


@pytest.mark.parametrize("path", ["../secret", "/etc/hosts", "a/../../b", "a\\..\\b", "", "a\0b"])
def test_paths_that_lead_out_of_a_site_are_files_that_it_lacks(
    site: Path, forge: Forge, path: str
) -> None:
    (site.parent / "secret").write_text("private", "utf-8")

    def lead_out(proof: dict[str, Any]) -> None:
        proof["files"][path] = "0" * 64
        proof["editions"][0]["lessons"][0]["artefacts"][0]["file"] = path

    forge(lead_out)
    told = tell(site)
    assert any(" E106 file-lost" in line for line in told)
    assert any(" E101 notice-unseen" in line for line in told)


def forget_notice(proof: dict[str, Any], name: str) -> None:
    for lesson in proof["editions"][0]["lessons"]:
        lesson["notices"] = [each for each in lesson["notices"] if each != name]


@pytest.mark.parametrize("name", ["floor", "general", "holding", "on-the-back", "slow"])
def test_a_notice_that_lessons_call_for_and_do_not_name_is_found(
    site: Path, forge: Forge, name: str
) -> None:
    forge(lambda proof: forget_notice(proof, name))
    assert any(f'calls for the notice "{name}"' in line for line in tell(site, "E103"))


@pytest.mark.parametrize("name", ["floor", "holding", "on-the-back", "slow"])
def test_a_notice_that_is_gone_altogether_is_missed_by_the_tools_own_traits(
    site: Path, forge: Forge, name: str
) -> None:
    def forget(proof: dict[str, Any]) -> None:
        forget_notice(proof, name)
        edition = proof["editions"][0]
        edition["notices"] = [each for each in edition["notices"] if each["id"] != name]
        for trait in edition["traits"].values():
            trait["needs_notice"] = False

    forge(forget)
    told = tell(site, "E103")
    assert any("and no notice of it" in line for line in told)
    assert any("no notice is needed for it" in line for line in told)


def test_a_trait_of_a_course_of_its_own_needs_what_the_course_says(
    site: Path, forge: Forge
) -> None:
    def add(proof: dict[str, Any]) -> None:
        edition = proof["editions"][0]
        edition["traits"]["rope"] = {"title": "a rope", "needs_notice": True}
        edition["lessons"][0]["traits"].append("rope")
        edition["lessons"][1]["traits"].append("a-trait-that-nobody-knows")

    forge(add)
    assert len(tell(site, "and no notice of it")) == 2
    assert "rope" not in TRAITS


def test_a_reason_excuses_a_notice_unless_it_is_for_everybody(site: Path, forge: Forge) -> None:
    def waive(proof: dict[str, Any]) -> None:
        forget_notice(proof, "general")
        for lesson in proof["editions"][0]["lessons"]:
            lesson["waived"].append({"notice": "general", "reason": "Not needed here"})

    forge(waive)
    assert len(tell(site, 'calls for the notice "general"')) == 5


@pytest.mark.parametrize("caution", ["", " ", "…"])
def test_a_course_without_its_caution_is_found(site: Path, forge: Forge, caution: str) -> None:
    forge(lambda proof: proof["editions"][0].update(caution=caution))
    assert tell(site, "has no caution")


def test_a_lesson_left_out_of_a_proof_is_found_by_its_files(site: Path, forge: Forge) -> None:
    forge(lambda proof: proof["editions"][0]["lessons"].pop())
    told = tell(site, "E104 artefact-unclaimed")
    assert [line.split(":")[0] for line in told] == [
        "cards/short-hold.pdf",
        "lessons/count/short-hold/index.html",
    ]


@pytest.mark.parametrize("kind", KINDS)
def test_an_artefact_left_out_of_a_proof_is_found(site: Path, forge: Forge, kind: str) -> None:
    def leave_out(proof: dict[str, Any]) -> None:
        lesson = proof["editions"][0]["lessons"][0]
        lesson["artefacts"] = [each for each in lesson["artefacts"] if each["kind"] != kind]

    forge(leave_out)
    assert tell(site, "E104 artefact-unclaimed")


def test_the_pages_of_another_lesson_in_a_pack_do_not_count(site: Path, forge: Forge) -> None:
    def borrow(proof: dict[str, Any]) -> None:
        first, second = proof["editions"][0]["lessons"][:2]
        packs = [each for each in first["artefacts"] if each["kind"] == "pack"]
        others = [each for each in second["artefacts"] if each["kind"] == "pack"]
        packs[0]["pages"] = others[0]["pages"]

    forge(borrow)
    assert tell(site, "is said to show both")
    assert tell(site, "E102 lesson-unseen")


def test_where_words_were_seen_is_never_believed(site: Path, forge: Forge) -> None:
    def move(proof: dict[str, Any]) -> None:
        for lesson in proof["editions"][0]["lessons"]:
            for artefact in lesson["artefacts"]:
                artefact["seen"] = []

    forge(move)
    assert prove_again(site).findings == ()
    spoil_text(site / "lessons/count/short-hold/index.html", find_words(site, "notice holding"))
    take_in(site, "lessons/count/short-hold/index.html")
    assert tell(site, "E101")


@pytest.mark.parametrize("content", [b"", b"%PDF-1.7\n", b"PK\x03\x04", b"\x00" * 5_000])
def test_files_that_are_no_pdf_or_book_show_nothing(site: Path, content: bytes) -> None:
    names = ("cards/short-hold.pdf", "course.epub", "cards/packs/count.pdf")
    for name in names:
        (site / name).write_bytes(content)
        take_in(site, name)
    told = tell(site, "E101")
    assert [name for name in names if not any(line.startswith(name) for line in told)] == []


def test_a_digest_that_was_kept_tells_a_forged_site(site: Path, forge: Forge) -> None:
    kept = prove_again(site).digest
    assert prove_again(site, kept).findings == ()
    forge(lambda proof: proof.update(tool="another"))
    (finding,) = prove_again(site, kept).findings
    assert finding.rule.id == "E109"


def test_a_folder_that_is_none_can_not_be_proved(tmp_path: Path) -> None:
    for folder in (tmp_path / "gone", tmp_path):
        with pytest.raises(BuilderError):
            prove_again(folder)
    (tmp_path / "file").write_text("x", "utf-8")
    with pytest.raises(BuilderError):
        prove_again(tmp_path / "file")


def test_a_site_without_its_proof_is_told(site: Path) -> None:
    (site / "proof.json").unlink()
    assert tell(site)[0].startswith("proof.json:1:1: E108")
