"""Whether the cautions on a print that was just made can be seen, and not only found as text."""

from collections.abc import Mapping

from builder.publishing.proof.finished.pdf_reading import PdfUnsoundError
from builder.publishing.proof.safety.in_pdf import Asked, sight_in_parts
from builder.publishing.proof.safety.sighting import Lack


def find_unseen_words(
    content: bytes, wanted: Mapping[str, str], pages: slice = slice(None)
) -> dict[str, str]:
    """Return what keeps wanted words of a PDF, by their names, from being seen.

    ``pages`` are those on which they stand, from 0. Words that aren't there, or run on in another
    column, are none of these: whoever prints has looked for the words themselves.
    """
    try:
        (answer,) = sight_in_parts(content, [Asked(pages, wanted, {})])
    except PdfUnsoundError:
        return dict.fromkeys(wanted, "in a file that can't be read")
    lacks = ((name, found.lack) for name, found in answer.seen.items())
    return {
        name: lack.value for name, lack in lacks if lack is not None and lack is not Lack.ABSENT
    }
