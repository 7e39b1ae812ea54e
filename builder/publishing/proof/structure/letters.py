"""Whether every letter can be read out: its font in the file, its code a letter.

ISO 14289-1, 7.21.4.1 and 7.21.7.
"""

from collections.abc import Iterator

from builder import rules
from builder.publishing.proof.structure.fault import Fault
from builder.publishing.proof.structure.opened import OpenedPdf

_NO_LETTERS = ("", "\x00", "\ufeff", "\ufffe", "\ufffd")
"""What stands for nothing (ISO 14289-1, 7.21.7, names zero and the marks of byte order)."""


def find_letter_faults(opened: OpenedPdf) -> Iterator[Fault]:
    """Yield fonts that aren't in the file, and codes of which nobody knows the letter."""
    for key, codes in opened.contents.codes.items():
        font = opened.contents.fonts[key]
        if not codes:
            continue
        if not font.is_embedded:
            fact = f'the font "{font.name}" is not in the file'
            yield Fault(rules.PDF_LETTERS_UNMAPPED, fact)
        unknown = [code for code in sorted(codes) if font.letters.get(code, "") in _NO_LETTERS]
        if unknown:
            fact = f'the font "{font.name}" doesn\'t say which letters {len(unknown)} signs are'
            yield Fault(rules.PDF_LETTERS_UNMAPPED, fact)
