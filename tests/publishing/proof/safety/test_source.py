"""What a kept look for words depends on."""

from builder.publishing.proof.safety.evidence import Artefact, Kind
from builder.publishing.proof.safety.source import Source, list_shapers

SITE = {
    "a/index.html": b"<p>words</p>",
    "b/index.html": b"<p>others</p>",
    "own.css": b"p { color: red }",
    "own.woff2": b"letters",
}


def key(site: dict[str, bytes]) -> str:
    page = Artefact(Kind.PAGE, "a/index.html")
    return Source(site.__getitem__, list_shapers(site)).key(page, ["words"])


def test_a_page_its_styles_and_its_typefaces_all_count():
    whole = key(SITE)
    for name in ("a/index.html", "own.css", "own.woff2"):
        assert key({**SITE, name: SITE[name] + b" "}) != whole, name
    assert key({**SITE, "b/index.html": b""}) == whole
