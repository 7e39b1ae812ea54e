"""Faults in the lists that a finished site keeps of its own files."""

import gzip
import hashlib
import html
import json
import posixpath
import re
import zlib
from collections.abc import Iterator
from json import JSONDecoder

from builder import rules
from builder.findings import Finding, Place
from builder.publishing.proof.finished.follow import has_other_scheme, judge_target
from builder.publishing.proof.finished.site import FinishedSite
from builder.publishing.site.offline import HASH_DIGITS, WORKER
from builder.publishing.site.policy import HEADERS_FILE

SITEMAP = "sitemap.xml"
SEARCH_INDEX = "search/search_index.json"
_LIST_START = "const edition = "
_LISTED = re.compile(r"<loc>\s*(.*?)\s*</loc>|\bhref=\"(.*?)\"", re.DOTALL)
_BUILD_AGAIN = "build again"
_NO_LIST = (ValueError, LookupError, TypeError, AttributeError, RecursionError)
"""What is raised over JSON that is broken, nested without end, or not the list it should be."""


def find_list_faults(site: FinishedSite) -> Iterator[Finding]:
    """Report what workers, sitemaps, search, headers and manifests name and the site lacks.

    A site in a sub-folder, as for another language, has lists of its own.
    """
    for path in site.sizes:
        name = posixpath.basename(path)
        if name == WORKER:
            yield from _find_worker_faults(site, path)
        elif name == SITEMAP:
            yield from _find_sitemap_faults(site, path)
        elif path.endswith(SEARCH_INDEX):
            yield from _find_search_faults(site, path)
        elif name == HEADERS_FILE:
            yield from _find_header_faults(site, path)
        elif path.endswith(".webmanifest"):
            yield from _find_manifest_faults(site, path)


def _find_worker_faults(site: FinishedSite, path: str) -> Iterator[Finding]:
    """Compare the list of what devices keep with what is there, byte for byte."""
    text, place = _read(site, path), Place(path)
    try:
        edition, _ = JSONDecoder().raw_decode(text.partition(_LIST_START)[2])
        groups = [edition["pages"], *(group["files"] for group in edition["kept"].values())]
        listed = {name: code for group in groups for name, code in group.items()}
    except _NO_LIST:
        fact = "the list of what devices keep can't be read"
        yield rules.FILE_UNSOUND.at(place, fact, _BUILD_AGAIN)
        return
    for name, code in listed.items():
        file = posixpath.normpath(posixpath.join(posixpath.dirname(path), name))
        if file not in site.sizes:
            fact = f'devices are told to keep "{file}", which is not there, and so keep nothing'
            yield rules.STALE_LIST.at(place, fact, _BUILD_AGAIN)
        elif _hash(site, file) != code:
            fact = f'"{file}" has changed since the list was made, so devices keep the old one'
            yield rules.STALE_LIST.at(place, fact, _BUILD_AGAIN)


def _find_sitemap_faults(site: FinishedSite, path: str) -> Iterator[Finding]:
    text, place = _read(site, path), Place(path)
    for location, other in dict.fromkeys(_LISTED.findall(text)):
        url = html.unescape(location or other)
        file, anchor = site.lead(path, url)
        if file is None or has_other_scheme(site, url):
            fact = f'"{url}" is listed, and the site stands at "{site.address}"'
            yield rules.WRONG_ADDRESS.at(place, fact, _BUILD_AGAIN)
        else:
            yield from _judge(site, path, url, file, anchor)
    packed = f"{path}.gz"
    if packed in site.sizes and _unpack(site, packed) != text.encode():
        fact = f'it lists other pages than "{path}"'
        yield rules.STALE_LIST.at(Place(packed), fact, _BUILD_AGAIN)


def _find_search_faults(site: FinishedSite, path: str) -> Iterator[Finding]:
    root = path.removesuffix(SEARCH_INDEX)
    try:
        listed = [str(part["location"]) for part in json.loads(_read(site, path))["docs"]]
    except _NO_LIST:
        fact = "the index of the search can't be read"
        yield rules.FILE_UNSOUND.at(Place(path), fact, _BUILD_AGAIN)
        return
    for location in dict.fromkeys(listed):
        file, anchor = site.lead(f"{root}index.html", location or "./")
        if file is not None:
            yield from _judge(site, path, location, file, anchor)


def _find_header_faults(site: FinishedSite, path: str) -> Iterator[Finding]:
    """Judge the paths that headers are for; a star stands for any."""
    for number, line in enumerate(_read(site, path).split("\n"), 1):
        pattern = line.strip()
        if not pattern or line[0] in " \t#":
            continue
        place = Place(path, number)
        if not pattern.startswith(("/", "https://")):
            fact = f'"{pattern}" is no path from the root of the host'
            yield rules.FILE_UNSOUND.at(place, fact, "begin it with a slash")
        elif "*" not in pattern and ":" not in pattern.removeprefix("https://"):
            file, _ = site.lead("", pattern)
            found = file and judge_target(site, place, f'"{pattern}"', file, "")
            if found:
                yield found


def _find_manifest_faults(site: FinishedSite, path: str) -> Iterator[Finding]:
    """Judge start and pictures of a web app manifest (World Wide Web Consortium)."""
    try:
        manifest = json.loads(_read(site, path))
        icons = [str(icon["src"]) for icon in manifest.get("icons", ())]
        start = [str(manifest["start_url"])] if "start_url" in manifest else []
    except _NO_LIST:
        yield rules.FILE_UNSOUND.at(Place(path), "it is no manifest", _BUILD_AGAIN)
        return
    for target in (*start, *icons):
        file, anchor = site.lead(path, target)
        if file is not None:
            yield from _judge(site, path, target, file, anchor)


def _judge(site: FinishedSite, path: str, shown: str, file: str, anchor: str) -> Iterator[Finding]:
    finding = judge_target(site, Place(path), f'"{shown}"', file, anchor)
    if finding:
        yield finding


def _read(site: FinishedSite, path: str) -> str:
    return (site.folder / path).read_text(encoding="utf-8", errors="replace")


def _unpack(site: FinishedSite, path: str) -> bytes:
    try:
        return gzip.decompress((site.folder / path).read_bytes())
    except (OSError, EOFError, zlib.error):
        return b""


def _hash(site: FinishedSite, path: str) -> str:
    return hashlib.sha256((site.folder / path).read_bytes()).hexdigest()[:HASH_DIGITS]
