"""Finished files under trial: what `publish --check` and the privacy check read of any folder."""

import shutil
from functools import partial
from pathlib import Path

from builder.findings import Finding
from builder.publishing.proof.finished.faults import find_finished_faults, gather
from builder.publishing.proof.finished.site import read_finished_site
from builder.publishing.proof.privacy.contents import list_pieces
from builder.publishing.proof.privacy.piece import UnreadableError
from builder.reading.addresses import read_declared
from tests.fuzz import finished_seeds
from tests.fuzz.desk import lay, open_desk, read_files
from tests.fuzz.kinds import Answer, Target

_PAGE_WORDS = (
    *("href", "src", "id", "article", "template", "</template>", "hidden", "style", "meta"),
    *("https://saltmarsh-studio.example/", "data:,x", "srcset", "javascript:", "//b/", "#", "?a"),
    *('"@id"', "application/ld+json", "</script>", "url(", "@import", "refresh", "svg", "math"),
)
_PDF_WORDS = (
    *("/Annots", "/A", "/S", "/URI", "/GoTo", "/GoToR", "/Dest", "/D", "/Names", "/Dests", "/Kids"),
    *("/Outlines", "/First", "/Next", "/Type", "/Page", "/Pages", "/Count", "/Alt", "/Metadata"),
    *("obj", "endobj", "stream", "endstream", "xref", "trailer", "R", "1 0 R", "3 0 R", "<<", ">>"),
    *(
        "null",
        "true",
        "(a)",
        "<FEFF0041>",
        "/Filter",
        "/FlateDecode",
        "/Length",
        "%%EOF",
        "/Encrypt",
    ),
)
_JSON_WORDS = ('{"docs": [', '"location"', '"pages"', '"kept"', '"files"', "null", "[[[[", "1e999")


def _make_site(name: str, data: bytes) -> Path:
    """Give a finished site in which one file is under trial."""
    folder = open_desk() / "site"
    shutil.rmtree(folder, ignore_errors=True)
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    (folder / "index.html").write_bytes(finished_seeds.PAGE)
    path.write_bytes(data)
    return folder


def read_site_bytes(name: str, data: bytes) -> Answer:
    """Follow every link of a site in which one file is under trial; read its words as well."""
    folder = _make_site(name, data)
    site = read_finished_site(folder)
    findings: tuple[Finding, ...] = gather(find_finished_faults(site, read_declared(folder)))
    return Answer((site, _list_words(name, data)), findings)


def read_any_bytes(name: str, data: bytes) -> Answer:
    """Read every word of a file of any kind."""
    return Answer(_list_words(name, data))


def _list_words(name: str, data: bytes) -> object:
    try:
        return tuple(list_pieces(name, data))
    except UnreadableError:
        return "unreadable"


def read_settings_bytes(data: bytes) -> Answer:
    """Read the addresses that a project's files give."""
    project = lay("project/mkdocs.yml", data).parent
    lay("project/content/course.yml", data)
    return Answer(read_declared(project))


FINISHED_TARGETS = (
    Target(
        "web-page",
        partial(read_site_bytes, "index.html"),
        lambda: (finished_seeds.PAGE,),
        _PAGE_WORDS,
    ),
    *(
        Target(name, partial(read_site_bytes, file), seeds, _JSON_WORDS)
        for name, file, seeds in (
            ("search-index", "search/search_index.json", lambda: (finished_seeds.SEARCH,)),
            ("service-worker", "service-worker.js", lambda: (finished_seeds.WORKER,)),
            ("sitemap", "sitemap.xml", lambda: (finished_seeds.SITEMAP,)),
            ("host-headers", "_headers", lambda: (finished_seeds.HEADERS,)),
            ("web-manifest", "app.webmanifest", lambda: (finished_seeds.MANIFEST,)),
        )
    ),
    Target(
        "pdf",
        partial(read_site_bytes, "cards/a.pdf"),
        lambda: (finished_seeds.make_pdf(),),
        _PDF_WORDS,
    ),
    Target(
        "book",
        partial(read_site_bytes, "course.epub"),
        lambda: (finished_seeds.make_book(),),
        (*_PAGE_WORDS, "rootfile", "full-path", "item", "itemref", "idref", "properties", "nav"),
        is_zip=True,
    ),
    Target("picture", partial(read_any_bytes, "a.png"), finished_seeds.list_pictures),
    Target("archive", partial(read_any_bytes, "a.bin"), finished_seeds.list_archives, is_zip=True),
    Target(
        "settings",
        read_settings_bytes,
        lambda: read_files("mkdocs.yml", "content/course.yml"),
        ("site_url: ", "address: ", "https://a.example/"),
    ),
)
