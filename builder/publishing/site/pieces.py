"""Pieces as a site keeps them between builds: a page's HTML, and what else is known of it."""

import json
from collections.abc import Mapping

Told = Mapping[str, object]
_END = b"\n"


def pack(told: Told, html: str) -> bytes | None:
    """Return a piece, or None where reading it would give anything but what was told."""
    try:
        head = json.dumps(told)
        body = html.encode()
    except (TypeError, ValueError):  # a date in a page's head, half a sign
        return None
    return head.encode() + _END + body if json.loads(head) == told else None


def unpack(piece: bytes) -> tuple[Told, str]:
    """Return what was told, and the HTML, of a whole piece."""
    head, _, body = piece.partition(_END)
    told: Told = json.loads(head)
    return told, body.decode()
