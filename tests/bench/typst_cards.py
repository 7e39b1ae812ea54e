"""The same cards' words and drawings by typst, if it is installed: how fast a card can be at all.

Each card's drawings and lines of words come from its HTML and are set plainly, one below the
other, on a page as wide as the card, in the same typeface. There is no fit and no reading back.

    python tests/bench/typst_cards.py HTML_FOLDER TARGET FONTS
"""

import html
import json
import re
import sys
from collections.abc import Iterator
from pathlib import Path

import typst

_SVG = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
_HIDDEN = re.compile(r"<(head|style|script)\b.*?</\1>", re.DOTALL)
_ENDS = re.compile(r"</(?:p|h\d|li|div|td|th|dt|dd)>|<br[^>]*>")
_WIDTH = re.compile(r"@page \{ size: (\S+)")
_TAG = re.compile(r"<[^>]*>")
_NAMED = '<svg xmlns="http://www.w3.org/2000/svg"'
_PAGE = (
    "#set document(title: {title}, date: none)\n"
    "#set page(width: {width}, height: auto, margin: 6mm)\n"
    '#set text(font: "Source Sans 3", size: 8pt)\n'
)


def write_source(card: str, width: str) -> str:
    """Return a card's words and drawings as a typst document of a width."""
    lines = list(list_lines(card))
    parts = [_PAGE.format(title=quote(lines[0]), width=width)]
    for drawing in _SVG.findall(card):
        named = drawing if "xmlns=" in drawing else drawing.replace("<svg", _NAMED, 1)
        parts.append(f'#image(bytes({quote(named)}), format: "svg", height: 16mm, alt: "drawing")')
    parts += (f"#par({quote(line)})" for line in lines)
    return "\n".join(parts)


def list_lines(card: str) -> Iterator[str]:
    """Yield the words of a card, block by block."""
    words = _ENDS.sub("\n", _HIDDEN.sub("", _SVG.sub("", card)))
    for line in html.unescape(_TAG.sub("", words)).splitlines():
        if line.strip():
            yield " ".join(line.split())


def quote(text: str) -> str:
    """Return a text as typst's own kind of string, whose escapes are JSON's but for one."""
    return json.dumps(text, ensure_ascii=False)


def print_all(source: Path, target: Path, fonts: Path) -> None:
    """Print each HTML file of a folder, one after the other."""
    target.mkdir(parents=True)
    (width,) = _WIDTH.findall((source / "style.css").read_text(encoding="utf-8"))
    for path in sorted(source.glob("*.html")):
        text = write_source(path.read_text(encoding="utf-8"), width)
        pdf = typst.compile(text.encode(), font_paths=[str(fonts)], ignore_system_fonts=True)
        (target / f"{path.stem}.pdf").write_bytes(pdf)


if __name__ == "__main__":
    print_all(*map(Path, sys.argv[1:4]))
