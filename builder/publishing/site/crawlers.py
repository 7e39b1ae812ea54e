"""What search engines read beside the pages: the list of addresses, and where it stands."""

import gzip
from collections.abc import Iterable
from pathlib import Path
from urllib.parse import urlsplit

SITEMAP = "sitemap.xml"
ROBOTS = "robots.txt"


_ENTRY, _END = "<url>", "</urlset>"


def finish_for_crawlers(folder: Path, address: str, parts: Iterable[str] = ()) -> None:
    """Bring the host's list of addresses into its final form, and tell crawlers of it.

    ``parts`` are folders with sites of other languages, whose addresses go into the list too.
    They look for ``robots.txt`` at a host's root only (RFC 9309), so that a site in a folder of a
    host has none; nor is a file of the studio's own replaced. The packed list gets no time of
    writing: the same site gives the same bytes.
    """
    plain, packed = folder / SITEMAP, folder / f"{SITEMAP}.gz"
    if not address:  # a list needs whole addresses (sitemaps.org protocol)
        plain.unlink(missing_ok=True)
        packed.unlink(missing_ok=True)
        return
    if plain.is_file():
        _take_up(plain, [folder / part / SITEMAP for part in parts])
        packed.write_bytes(gzip.compress(plain.read_bytes(), mtime=0))
    robots = folder / ROBOTS
    if urlsplit(address).path.strip("/") == "" and not robots.exists():
        text = f"User-agent: *\nAllow: /\n\nSitemap: {address.rstrip('/')}/{SITEMAP}\n"
        robots.write_text(text, encoding="utf-8")


def _take_up(whole: Path, others: Iterable[Path]) -> None:
    """Put the entries of other lists, one on a line, at the end of a list."""
    texts = [other.read_text(encoding="utf-8") for other in others if other.is_file()]
    entries = [line for text in texts for line in text.splitlines() if _ENTRY in line]
    told = whole.read_text(encoding="utf-8")
    whole.write_text(told.replace(_END, "\n".join((*entries, _END))), encoding="utf-8")
