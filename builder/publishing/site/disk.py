"""A site to open from a disk by double click: one zip with its search in it."""

import zipfile
from pathlib import Path

from builder.publishing.site.crawlers import ROBOTS, SITEMAP
from builder.publishing.site.offline import WORKER
from builder.publishing.site.policy import HEADERS_FILE

_INDEX = "search/search_index"
_FIRST_DAY = (1980, 1, 1, 0, 0, 0)
"""The earliest that the format knows; the same site gives the same bytes."""
_FOR_HOSTS = frozenset({HEADERS_FILE, WORKER, ROBOTS, SITEMAP, f"{SITEMAP}.gz"})
"""In the folder of each language."""
_FOR_OTHERS = "previews/"
"""Pictures for those who share a page's address on the web."""


def write_search_script(folder: Path) -> None:
    """Write the search index as a script too, which a page may load from a disk."""
    index = folder / f"{_INDEX}.json"
    if index.is_file():
        text = index.read_text(encoding="utf-8")
        (folder / f"{_INDEX}.js").write_text(f"var __index = {text}", encoding="utf-8")


def zip_site(folder: Path, target: Path, name: str) -> int:
    """Write a finished site into a zip, under a folder of a name; return how many files.

    What only hosts read is left out. ``target`` is written as it goes: give a place beside the
    final one.
    """
    count = 0
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as file:
        for path in sorted(folder.rglob("*")):
            within = path.relative_to(folder).as_posix()
            if not path.is_file() or is_left_out(within):
                continue
            entry = zipfile.ZipInfo(f"{name}/{within}", _FIRST_DAY)
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            file.writestr(entry, path.read_bytes())
            count += 1
    return count


def is_left_out(within: str) -> bool:
    """Tell whether a file of a site has no use on a disk."""
    is_for_hosts = within.rpartition("/")[2] in _FOR_HOSTS
    return is_for_hosts or within.startswith(".") or f"/{_FOR_OTHERS}" in f"/{within}"
