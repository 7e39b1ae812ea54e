"""What any host of plain files needs for a finished site, told to a coach line by line."""

import re
from collections import Counter
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from enum import StrEnum
from pathlib import PurePosixPath

from builder import rules
from builder.findings import Finding, Rule
from builder.publishing.proof.address import split_address
from builder.publishing.proof.finished.hosts import HOSTS, list_refusals, word_bytes
from builder.publishing.proof.finished.site import ERROR_PAGE, HOME, FinishedSite
from builder.publishing.site.offline import WORKER
from builder.publishing.site.policy import HEADERS_FILE, NO_JEKYLL
from builder.reading.addresses import COURSE

BUILD_AGAIN = "build again with: tempoleaf build --strict"
MEDIA_TYPES = {
    ".woff2": "font/woff2",  # RFC 8081
    ".flac": "audio/flac",  # RFC 9639
    ".wav": "audio/wav",  # in use everywhere, and never registered
    ".epub": "application/epub+zip",  # EPUB 3.3
    ".webmanifest": "application/manifest+json",  # Web Application Manifest
    ".wasm": "application/wasm",  # WebAssembly Web API
    ".js": "text/javascript",  # RFC 9239
    ".svg": "image/svg+xml",  # SVG 2
    ".pdf": "application/pdf",  # RFC 8118
}
"""What a host should call each kind of file; browsers refuse scripts that are called otherwise."""
_PLAIN_NAME = re.compile(r"[A-Za-z0-9._-]+")


class State(StrEnum):
    """How it stands with a need."""

    OK = "ok"
    TO_DO = "to do"
    """The folder or the course lacks something, or something is wrong with it."""
    HOST = "host"
    """Only the host can do it; the cure says how to see that it does."""


@dataclass(frozen=True, slots=True)
class HostNeed:
    """One thing that a host needs for this site."""

    name: str
    state: State
    fact: str
    cure: str = ""


def list_needs(site: FinishedSite, findings: Collection[Finding]) -> tuple[HostNeed, ...]:
    """Judge all that hosts need, from a site's folder and the faults found in it."""
    return (
        *_address_needs(site, findings),
        _link_need(findings),
        _https_need(site),
        _folder_need(site),
        _error_page_need(site),
        _headers_need(site),
        _types_need(site),
        *_name_needs(site),
        *_size_needs(site),
    )


def write_needs(needs: Collection[HostNeed]) -> str:
    """Write a line for each need, and one more for its cure."""
    lines = []
    for need in needs:
        lines.append(f"{need.state:<6} {need.name:<9} {need.fact}")
        if need.cure:
            label = "see to it" if need.state is State.HOST else "cure"
            lines.append(f"{'':<16} {label}: {need.cure}")
    return "\n".join(lines)


def _address_needs(site: FinishedSite, findings: Collection[Finding]) -> Iterator[HostNeed]:
    if not site.address:
        fact = "no page says where it stands, so cards have no code and search engines no list"
        cure = f"write the site's whole address behind address in {COURSE}, then {BUILD_AGAIN}"
        yield HostNeed("address", State.TO_DO, fact, cure)
        return
    wrong = _count(findings, rules.WRONG_ADDRESS)
    if wrong:
        fact = f"{site.address} on the home page; {wrong} places say otherwise, see below"
        yield HostNeed("address", State.TO_DO, fact, f"set one address, then {BUILD_AGAIN}")
    else:
        fact = f"{site.address} on pages, lists and the codes of cards alike"
        yield HostNeed("address", State.OK, fact)
    host, folder = split_address(site.address).netloc, site.root
    where = "at its root" if folder == "/" else f"in its folder {folder}"
    cure = f"after uploading, open {site.address} and follow a card's code with a phone"
    yield HostNeed("place", State.HOST, f"the site belongs on {host}, {where}", cure)


def _link_need(findings: Collection[Finding]) -> HostNeed:
    dead = _count(findings, rules.BROKEN_LINK, rules.BROKEN_ANCHOR)
    stale = _count(findings, rules.STALE_LIST, rules.FILE_UNSOUND)
    if dead or stale:
        fact = f"{dead} links lead nowhere and {stale} lists or files are not sound, see below"
        return HostNeed("links", State.TO_DO, fact, "mend what is named, then build again")
    return HostNeed("links", State.OK, "every link leads somewhere, in pages, PDFs and books")


def _https_need(site: FinishedSite) -> HostNeed:
    if WORKER not in site.sizes:
        fact = f"{WORKER} is missing, so nothing works without a signal"
        return HostNeed("offline", State.TO_DO, fact, BUILD_AGAIN)
    use = "reading without a signal and keeping the screen awake need https"
    if site.address and split_address(site.address).scheme != "https":
        cure = f"turn https on at the host, write it in {COURSE}, then {BUILD_AGAIN}"
        return HostNeed("https", State.TO_DO, f"{use}, and the address begins with http", cure)
    cure = "turn https on, and let the host lead http there; the browser shows a lock"
    return HostNeed("https", State.HOST, use, cure)


def _folder_need(site: FinishedSite) -> HostNeed:
    pages = sorted(path for path in site.pages if path.endswith(f"/{HOME}"))
    if not pages:
        return HostNeed("folders", State.OK, "links name every page's file")
    page = next((path for path in pages if path.startswith("lessons/")), pages[0])
    address = page.removesuffix(HOME)
    fact = f"links name folders: for {address} the host has to show {page}"
    cure = "nearly all do; after uploading, open a lesson from the home page"
    return HostNeed("folders", State.HOST, fact, cure)


def _error_page_need(site: FinishedSite) -> HostNeed:
    if ERROR_PAGE not in site.sizes:
        fact = f"{ERROR_PAGE} is missing, so a wrong address shows the host's own page"
        return HostNeed("404", State.TO_DO, fact, BUILD_AGAIN)
    fact = f"{ERROR_PAGE} is for addresses that are not there"
    cure = "common hosts take it by its name; on your own server, set it as the error page"
    return HostNeed("404", State.HOST, fact, cure)


def _headers_need(site: FinishedSite) -> HostNeed:
    if HEADERS_FILE not in site.sizes:
        fact = f"{HEADERS_FILE} is missing: what only a host can say about safety"
        return HostNeed("headers", State.TO_DO, fact, BUILD_AGAIN)
    readers = " and ".join(host.name for host in HOSTS if host.reads_headers)
    others = " and ".join(host.name for host in HOSTS if not host.reads_headers)
    fact = f"{HEADERS_FILE} is read by {readers} in the root of an upload, not by {others}"
    cure = (
        "on your own server, copy its lines into the settings; elsewhere nothing is to be done: "
        "each page brings its own policy, and only showing it inside a strange page isn't barred"
    )
    return HostNeed("headers", State.HOST, fact, cure)


def _types_need(site: FinishedSite) -> HostNeed:
    endings = {PurePosixPath(path).suffix.lower() for path in site.sizes}
    listed = [f"{ending} {kind}" for ending, kind in MEDIA_TYPES.items() if ending in endings]
    fact = f"the host has to name kinds of files rightly: {', '.join(listed)}"
    cure = "common hosts do; on your own server, add those it doesn't know to its media types"
    return HostNeed("types", State.HOST, fact, cure)


def _name_needs(site: FinishedSite) -> Iterator[HostNeed]:
    folded = Counter(path.casefold() for path in site.sizes)
    alike = sorted(path for path in site.sizes if folded[path.casefold()] > 1)
    if alike:
        fact = f'"{alike[0]}" and "{site.find_twin(alike[0])}" differ by capitals only'
        yield HostNeed("capitals", State.TO_DO, fact, "give one of them another name")
    else:
        yield HostNeed("capitals", State.OK, "no two names differ by capitals only")
    odd = sorted(path for path in site.sizes if not _is_plain(path))
    if odd:
        fact = f'{len(odd)} names have spaces or signs that some hosts change, such as "{odd[0]}"'
        cure = "use letters a to z, digits, hyphens and dots"
        yield HostNeed("names", State.TO_DO, fact, cure)
    hidden = sorted({part for path in site.sizes for part in path.split("/") if part[0] == "_"})
    if NO_JEKYLL in site.sizes:
        names = f"names such as {hidden[0]}" if hidden else "any name"
        fact = f"{NO_JEKYLL} keeps hosts that use Jekyll from leaving out {names}"
        yield HostNeed("hidden", State.OK, fact)
    else:
        fact = "hosts that use Jekyll leave out names that begin with _"
        cure = f"{BUILD_AGAIN}, or put an empty file {NO_JEKYLL} into the folder"
        yield HostNeed("hidden", State.TO_DO, fact, cure)


def _is_plain(path: str) -> bool:
    return all(_PLAIN_NAME.fullmatch(part) for part in path.split("/"))


def _size_needs(site: FinishedSite) -> Iterator[HostNeed]:
    sizes = dict(site.sizes)
    largest = max(sizes, key=lambda path: (sizes[path], path))
    fact = (
        f"{len(sizes):,} files, {word_bytes(sum(sizes.values()))} in all, "
        f"the largest {largest} with {word_bytes(sizes[largest])}"
    )
    refused = {host: list_refusals(host, sizes) for host in HOSTS}
    if not any(refused.values()):
        limited = [host.name for host in HOSTS if host.most_bytes or host.most_files]
        fact = f"{fact}: within what {', '.join(limited)} publish as limits"
    yield HostNeed("size", State.OK, fact)
    for host, told in refused.items():
        if told:
            fact = f"{host.name} takes {'; '.join(told)} ({host.source})"
            cure = "take another host, or fewer papers under tempoleaf in mkdocs.yml"
            yield HostNeed("size", State.TO_DO, fact, cure)


def _count(findings: Collection[Finding], *kinds: Rule) -> int:
    return sum(finding.rule in kinds for finding in findings)
