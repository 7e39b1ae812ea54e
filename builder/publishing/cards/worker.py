"""What a worker process is given to run; it loads the PDF engine when it begins."""

from builder.publishing.cards.face import CardFace
from builder.publishing.cards.pack_parts import PackParts
from builder.publishing.cards.pack_plan import Pack
from builder.publishing.cards.record import CardRecord
from builder.sums.paper import Paper


def run_batch(faces: tuple[CardFace, ...]) -> tuple[CardRecord, ...]:
    """Print cards; the PDF engine is loaded here and not before."""
    from builder.publishing.cards.press import print_batch  # noqa: PLC0415  # loads in 0.4 s

    return print_batch(faces)


def run_contents(work: tuple[Pack, tuple[int, ...]]) -> bytes:
    """Print the contents of a pack whose cards have so many pages each."""
    from builder.publishing.cards.pack_pages import print_contents  # noqa: PLC0415  # as above

    return print_contents(*work).to_bytes()


def run_folios(work: tuple[Paper, str, int]) -> bytes:
    """Print a sheet of page numbers."""
    from builder.publishing.cards.pack_pages import print_folios  # noqa: PLC0415  # as above

    return print_folios(*work)


def run_packs(packs: tuple[PackParts, ...]) -> tuple[bytes, ...]:
    """Bind packs; another library is loaded for it."""
    from builder.publishing.cards.packs import bind_proved  # noqa: PLC0415  # loads in 0.1 s

    return tuple(bind_proved(parts) for parts in packs)
