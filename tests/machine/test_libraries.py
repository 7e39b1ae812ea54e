"""The system libraries, as the PDF engine itself sees them."""

from pathlib import Path

from weasyprint.text import ffi

from builder.machine.libraries import (
    PANGO_FONTS,
    SUBSETTER,
    SystemLibrary,
    has_pango,
    pango_version,
)


def test_a_library_that_is_nowhere_gives_nothing() -> None:
    assert SystemLibrary("no-such-thing", ("libno-such-thing.so.0",)).load() is None


def test_the_version_is_the_one_that_the_pdf_engine_works_with() -> None:
    number = ffi.pango.pango_version()
    assert pango_version() == (number // 10_000, number // 100 % 100, number % 100)
    assert has_pango()


def test_every_name_tried_is_one_that_the_pdf_engine_tries() -> None:
    source = Path(ffi.__file__).read_text(encoding="utf-8")
    for library in (PANGO_FONTS, SUBSETTER):
        assert all(f"'{name}'" in source for name in library.files)
