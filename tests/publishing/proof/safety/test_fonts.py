"""Typefaces of others in finished cards (E110)."""

from pathlib import Path

from builder.publishing.proof.safety.again import prove_again
from builder.publishing.proof.safety.fonts import find_strange_fonts
from tests.publishing.proof.safety.conftest import take_in
from tests.publishing.proof.safety.pdf_edits import NOTICE, print_words

OWN = print_words(f"<p>{NOTICE}</p>")
OTHER = print_words(f"<p>{NOTICE}</p><p style='font-family: monospace'>Rest.</p>")


def test_a_card_in_our_own_type_is_no_finding(card: bytes) -> None:
    files = {"a.pdf": card, "b.pdf": OWN}
    assert tuple(find_strange_fonts(files.__getitem__, files)) == ()


def test_each_file_with_a_typeface_of_others_is_named_with_it() -> None:
    files = {"a.pdf": OTHER, "b.pdf": OWN, "c.pdf": OTHER}
    for is_ours in (True, False):
        found = list(find_strange_fonts(files.__getitem__, files, is_ours=is_ours))
        assert [finding.place.path for finding in found] == ["a.pdf", "c.pdf"]
        assert {finding.rule.id for finding in found} == {"E110"}
        assert all("is not the tool's own or not in it" in finding.fact for finding in found)


def test_what_is_no_pdf_or_not_there_is_no_finding_of_typefaces() -> None:
    assert tuple(find_strange_fonts({"a.pdf": b"no PDF"}.__getitem__, ["a.pdf"])) == ()

    def miss(name: str) -> bytes:
        raise FileNotFoundError(name)

    assert tuple(find_strange_fonts(miss, ["a.pdf"])) == ()


def test_a_typeface_of_others_in_a_finished_site_is_found(site: Path) -> None:
    (site / "cards/short-hold.pdf").write_bytes(OTHER)
    take_in(site, "cards/short-hold.pdf")
    told = [str(finding) for finding in prove_again(site).findings if finding.rule.id == "E110"]
    assert len(told) == 1
    assert told[0].startswith("cards/short-hold.pdf:1:1: E110 foreign-font: ")
