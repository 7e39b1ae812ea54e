"""What a worker process is given to run; it loads the PDF engine when it begins."""

from builder.errors import BuilderError
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.pack_plan import Pack
from builder.publishing.cards.record import CardRecord


def run_batch(faces: tuple[CardFace, ...]) -> tuple[CardRecord, ...]:
    """Print cards; the PDF engine is loaded here and not before."""
    try:
        from builder.publishing.cards.press import print_batch  # noqa: PLC0415  # loads in 0.4 s
    except OSError as error:
        raise _lack_library() from error
    return print_batch(faces)


def run_pack(work: tuple[Pack, tuple[bytes, ...]]) -> bytes:
    """Bind a pack of finished cards, which come in the order of its contents."""
    pack, cards = work
    try:
        from builder.publishing.cards.packs import print_pack  # noqa: PLC0415  # loads in 0.4 s
    except OSError as error:
        raise _lack_library() from error
    return print_pack(pack, cards)


def _lack_library() -> BuilderError:
    return BuilderError(
        "cards can't be printed: a system library of the PDF engine is missing",
        "see which one with: tempoleaf doctor",
    )
