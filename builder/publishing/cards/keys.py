"""Keys of the card cache: everything that a finished card depends on."""

from collections.abc import Sequence

from builder.course.audience import Audience
from builder.publishing.cards.face import CardFace
from builder.publishing.cards.pack_plan import Pack
from builder.sums.paper import Paper
from builder.work.digest import digest
from builder.work.press import digest_press


def key_piece(kind: str, *told: str) -> str:
    """Return the key of anything that the tool makes of what is told."""
    return digest(kind, digest_press(), *told)


def key_outline(outline: str, audience: Audience, papers: Sequence[Paper]) -> str:
    """Return the key under which stand the keys of a lesson's cards on some papers."""
    return key_piece("outline", audience, repr(tuple(papers)), outline)


def key_card(face: CardFace) -> str:
    """Return the key of a card: the tool, its parts and everything on the card."""
    return key_piece("card", repr(face))


def key_pack(pack: Pack, card_keys: tuple[str, ...]) -> str:
    """Return the key of a pack: its contents and the cards in it."""
    return key_piece("pack", repr(pack), *card_keys)


def key_contents(pack: Pack, leaves: tuple[int, ...]) -> str:
    """Return the key of a pack's contents; they name where each card's pages begin."""
    return key_piece("contents", repr(pack), repr(leaves))


def key_folios(paper: Paper, language: str, first: int) -> str:
    """Return the key of a sheet of page numbers, which all packs of a paper share."""
    return key_piece("folios", repr(paper), language, str(first))
