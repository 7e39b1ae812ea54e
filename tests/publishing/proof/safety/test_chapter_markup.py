"""Chapters of a book that readers of XML and of web pages take for different things."""

import pytest

from builder.publishing.proof.safety.in_page import sight_in_page
from builder.publishing.proof.safety.sighting import Lack
from builder.resources import find_templates

WORDS = "Stop at pain, dizziness or short breath."
GONE = ".notice { display: none }"
SHOWN = ".shown .notice { display: list-item !important }"
CHAPTER = """\
<?xml version="1.0" encoding="utf-8"?>
{before}<!DOCTYPE html>
<html xmlns="http://www.w3.org/1999/xhtml" xmlns:epub="http://www.idpf.org/2007/ops" lang="en">
<head>
<meta charset="utf-8"/>
<title>Short hold</title>
<link rel="stylesheet" type="text/css" href="style.css"/>
{head}</head>
<body epub:type="bodymatter">
{body}
<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9" width="9"><title>Tempo</title>
<linearGradient id="g"/><text x="1" y="2">in 3 &amp; out&#160;3</text></svg>
<h2 id="cautions">Cautions</h2><hr/>
<ul class="notices"><li class="notice">{words}</li></ul>
{after}</body>
</html>
"""


def sight(*, own: str = "", **parts: str) -> Lack | None:
    """Return what the notice of a chapter with some more in it lacks."""
    whole = {"before": "", "head": "", "body": "", "words": WORDS, "after": "", **parts}
    files = {
        "a.xhtml": CHAPTER.format(**whole).encode(),
        "style.css": (find_templates() / "epub" / "style.css").read_bytes(),
        "TempoleafSans-Semibold.woff2": (
            find_templates() / "fonts" / "TempoleafSans-Semibold.woff2"
        ).read_bytes(),
        "own.css": own.encode(),
    }
    return sight_in_page(files.__getitem__, "a.xhtml", {"a": WORDS})["a"].lack


def test_a_notice_is_seen_in_a_plain_chapter() -> None:
    assert sight() is None
    assert sight(words="Stop at pain,<br/> dizziness &amp; <em>or short</em> breath.") is None


OWN_SHEET = '<link rel="stylesheet" href="own.css"/>'
PAGES = "http://www.w3.org/1999/xhtml"
TWO_MEANINGS = {
    "a sheet by instruction": {"before": '<?xml-stylesheet href="own.css"?>'},
    "a style of another prefix": {
        "head": f'<h:style xmlns:h="{PAGES}">{GONE}</h:style>',
    },
    "a style as it stands": {"head": f"<style><![CDATA[ {GONE} ]]></style>"},
    "words as they stand": {"words": "Stop <![CDATA[not]]> at pain, dizziness or short breath."},
    "shown by a comment": {"head": f"{OWN_SHEET}<style><!-- {SHOWN} --></style>", "own": GONE},
    "shown by capitals": {"head": f"{OWN_SHEET}<STYLE>{SHOWN}</STYLE>", "own": GONE},
    "shown by what stays open": {
        "head": OWN_SHEET,
        "body": '<div class="shown"/>',
        "own": GONE + SHOWN,
    },
    "an element of another kind": {"body": '<div xmlns="urn:other">Rest</div>'},
    "a letter by a name of pages": {"body": "<p>&nbsp;</p>"},
    "no XML": {"body": "<p>Rest"},
    "what is no longer the chapter": {"after": "</body></html><html><body>"},
}


@pytest.mark.parametrize("name", TWO_MEANINGS)
def test_a_chapter_of_two_meanings_shows_nothing(name: str) -> None:
    assert sight(**TWO_MEANINGS[name]) is Lack.HIDDEN
