"""Chapters that lie in a book, and that no reader comes to."""

import pytest

from builder.publishing.proof.safety.book_order import CONTAINER, PACKAGE, list_read_chapters
from builder.publishing.proof.safety.evidence import Artefact, Kind
from builder.publishing.proof.safety.source import Source
from tests.fuzz.zips import write_parts

ROOTFILE = '<rootfile full-path="EPUB/package.opf"/>'
ITEM = '<item id="a" href="a.xhtml" media-type="application/xhtml+xml"/>'
REF = '<itemref idref="a"/>'
PACKAGED = f"""<?xml version="1.0"?>
<package><metadata></metadata><manifest>{ITEM}
<item id="b" href="b.xhtml" media-type="application/xhtml+xml"/></manifest>
<spine>{REF}</spine></package>"""


def order(package: str = PACKAGED, rootfiles: str = ROOTFILE) -> frozenset[str]:
    container = f"<container><rootfiles>{rootfiles}</rootfiles></container>"
    return list_read_chapters({CONTAINER: container.encode(), PACKAGE: package.encode()})


def test_only_what_stands_in_the_order_of_reading_is_read() -> None:
    assert order() == {"a.xhtml"}


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (REF, ""),
        (REF, '<itemref idref="a" linear="no"/>'),
        (REF, '<itemref idref="a" properties="rendition:layout-pre-paginated"/>'),
        ("application/xhtml+xml", "text/html"),
        (ITEM, f"{ITEM}{ITEM.replace('a.xhtml', 'b.xhtml')}"),
        (
            "<metadata>",
            '<metadata><meta property="rendition:layout">pre-paginated</meta>',
        ),
        ("</package>", ""),
        ("<package>", '<!DOCTYPE x [<!ENTITY a "b">]><package>'),
    ],
)
def test_a_chapter_that_nobody_comes_to_is_not_read(old: str, new: str) -> None:
    assert old in PACKAGED
    assert "a.xhtml" not in order(PACKAGED.replace(old, new))


@pytest.mark.parametrize("rootfiles", ["", '<rootfile full-path="x.opf"/>', ROOTFILE * 2])
def test_another_package_is_another_book(rootfiles: str) -> None:
    assert order(rootfiles=rootfiles) == frozenset()


WHOLE = [
    (CONTAINER, f"<container><rootfiles>{ROOTFILE}</rootfiles></container>".encode()),
    (PACKAGE, PACKAGED.encode()),
    ("EPUB/a.xhtml", b"words"),
    ("EPUB/b.xhtml", b"words"),
]


@pytest.mark.parametrize(
    ("more", "chapter", "is_read"),
    [
        ([], "a.xhtml", True),
        ([], "b.xhtml", False),
        ([("META-INF/encryption.xml", b"")], "a.xhtml", False),
        ([("EPUB/A.xhtml", b"other words")], "a.xhtml", False),
    ],
)
def test_a_book_of_other_or_locked_files_is_not_read(
    more: list[tuple[str, bytes]], chapter: str, is_read: bool
) -> None:
    source = Source({"course.epub": write_parts([*WHOLE, *more])}.__getitem__, ())
    assert source.is_in_order(Artefact(Kind.CHAPTER, "course.epub", chapter=chapter)) == is_read
