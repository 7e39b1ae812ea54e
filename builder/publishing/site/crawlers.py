"""What search engines read beside the pages: the list of addresses, and where it stands."""

import gzip
from pathlib import Path
from urllib.parse import urlsplit

SITEMAP = "sitemap.xml"
ROBOTS = "robots.txt"


def finish_for_crawlers(folder: Path, address: str) -> None:
    """Bring the host's list of addresses into its final form, and tell crawlers of it.

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
        packed.write_bytes(gzip.compress(plain.read_bytes(), mtime=0))
    robots = folder / ROBOTS
    if urlsplit(address).path.strip("/") == "" and not robots.exists():
        text = f"User-agent: *\nAllow: /\n\nSitemap: {address.rstrip('/')}/{SITEMAP}\n"
        robots.write_text(text, encoding="utf-8")
