"""Small pages that hide a notice, each in another way, and honest ones that only look otherwise."""

import importlib.util
import shutil
from dataclasses import dataclass
from pathlib import Path

from builder.resources import find_templates

WORDS = "Pain, dizzy, faint: stop. Unusual breathlessness: get help now."
_PAGE = """\
<!doctype html>
<html lang="en" class="no-js"><head><meta charset="utf-8"><title>A lesson</title>
<meta name="viewport" content="width=device-width,initial-scale=1">
<link rel="stylesheet" href="main.css"><link rel="stylesheet" href="palette.css">
<link rel="stylesheet" href="colours.css"><link rel="stylesheet" href="site.css">
{head}</head>
<body dir="ltr" data-md-color-scheme="default" data-md-color-primary="custom"
 data-md-color-accent="custom">
<input class="md-option" data-md-color-scheme="default" type="radio" id="__palette_0">
<input class="md-option" data-md-color-scheme="slate" type="radio" id="__palette_1">
<div class="md-container"><main class="md-main"><div class="md-main__inner md-grid">
<div class="md-content"><article class="md-content__inner md-typeset">
<h1 id="lesson">A lesson</h1>
{before}
<h2 id="cautions">Cautions</h2>
{wrap[0]}<ul class="tl-notices">
<li class="tl-notice tl-notice--stop"{item}><span class="tl-notice__action">Stop</span>
<span class="tl-notice__text"{attributes}>{words}</span></li>
</ul>{wrap[1]}
<h2 id="steps">Steps</h2>
<p class="beside">Lie on your back, with your knees bent.</p>
{after}
</article></div></div></main></div></body></html>
"""
COLOURS = """\
:root {
  --tl-ink: #1d2b2a;
  --tl-accent: #1f5e5b;
  --tl-paper: #fbfaf6;
  --tl-night: #151b1c;
  --tl-night-ink: #e6ebe8;
  --tl-night-accent: #8faead;
}
"""
"""As the site of a course has them."""


@dataclass(frozen=True, slots=True)
class Case:
    """What a page has besides the notice."""

    style: str = ""
    head: str = ""
    before: str = ""
    after: str = ""
    item: str = ""
    attributes: str = ""
    wrap: tuple[str, str] = ("", "")
    words: str = WORDS
    page: str = _PAGE
    is_with_other_letters: bool = False

    def write(self, folder: Path) -> Path:
        """Write the page with the sheets that it loads, once; give the folder."""
        if (folder / "index.html").exists():
            return folder
        theme = importlib.util.find_spec("material")
        assert theme is not None
        assert theme.origin is not None
        styles = Path(theme.origin).parent / "templates" / "assets" / "stylesheets"
        for name in ("main", "palette"):
            (folder / f"{name}.css").symlink_to(next(styles.glob(f"{name}.*.css")))
        (folder / "site.css").symlink_to(find_templates() / "assets" / "site.css")
        if self.is_with_other_letters:
            shutil.copytree(find_templates() / "fonts", folder / "fonts")
            (folder / "fonts" / "TempoleafSans-Regular.woff2").write_bytes(b"blank")
        else:
            (folder / "fonts").symlink_to(find_templates() / "fonts")
        (folder / "colours.css").write_text(COLOURS, encoding="utf-8")
        (folder / "own.css").write_text(self.style, encoding="utf-8")
        own = '<link rel="stylesheet" href="own.css">' if self.style else ""
        text = self.page.format(
            head=own + self.head,
            before=self.before,
            after=self.after,
            item=self.item,
            attributes=self.attributes,
            wrap=self.wrap,
            words=self.words,
        )
        (folder / "index.html").write_text(text, encoding="utf-8")
        return folder


_GONE = "li.tl-notice { display: none !important }"
_BACK = "ul > li.tl-notice { display: flex !important }"


def _on_notice(declarations: str) -> Case:
    return Case(style=f"[dir] .md-typeset li.tl-notice {{ {declarations} }}")


def _around(declarations: str) -> Case:
    return Case(style=f"article {{ {declarations} }}")


def _block(declarations: str) -> Case:
    return Case(after=f'<div style="{declarations}">█████ Rest now █████</div>')


HIDDEN = {
    "display": _on_notice("display: none"),
    "display-important": _on_notice("display: none !important"),
    "display-of-article": _around("display: none"),
    "display-column": _on_notice("display: table-column"),
    "visibility": _on_notice("visibility: hidden"),
    "visibility-collapse": _on_notice("visibility: collapse"),
    "visibility-inherited": _around("visibility: hidden"),
    "content-visibility": _on_notice("content-visibility: hidden"),
    "clip": _on_notice("position: absolute; clip: rect(0 0 0 0)"),
    "clip-path": _on_notice("clip-path: inset(50%)"),
    "clip-path-of-article": _around("clip-path: circle(0)"),
    "mask": _on_notice("mask: linear-gradient(transparent, transparent)"),
    "mask-image": _on_notice("-webkit-mask-image: linear-gradient(transparent, transparent)"),
    "filter": _on_notice("filter: opacity(0)"),
    "filter-blur": _on_notice("filter: blur(20px)"),
    "height": _on_notice("height: 0; overflow: hidden"),
    "max-height": _on_notice("max-height: 0; overflow: hidden"),
    "max-height-of-list": Case(style=".tl-notices { max-height: 1px; overflow: clip }"),
    "block-size": _on_notice("block-size: 0; overflow: hidden"),
    "width": _on_notice("width: 0; overflow: hidden"),
    "line-height": _on_notice("line-height: 0"),
    "letter-spacing": _on_notice("letter-spacing: -1em"),
    "letter-spacing-wide": _on_notice("letter-spacing: 100em"),
    "word-spacing": _on_notice("word-spacing: 200em"),
    "white-space": _on_notice("white-space: nowrap; overflow: hidden; text-overflow: ellipsis"),
    "line-clamp": _on_notice("display: -webkit-box; -webkit-line-clamp: 1; overflow: hidden"),
    "text-security": _on_notice("-webkit-text-security: disc"),
    "backwards": _on_notice("unicode-bidi: bidi-override; direction: rtl"),
    "upright": _on_notice("writing-mode: vertical-rl; height: 1em"),
    "strike": _on_notice("text-decoration: line-through"),
    "animation": Case(
        style="@keyframes gone { to { opacity: 0 } } .tl-notice { animation: gone 1s forwards }"
    ),
    "content": Case(style=".tl-notice__text { content: url(none.png) }"),
    "container": Case(
        style="article { container-type: inline-size }"
        "@container (min-width: 1px) { .tl-notice { display: none !important } }"
    ),
    "supports": Case(style="@supports (display: grid) { .tl-notice { display: none !important } }"),
    "layer": Case(style="@layer late { .tl-notice { display: none !important } }"),
    "nested": Case(style="article { & .tl-notices { > .tl-notice { display: none !important } } }"),
    "name": Case(style=":root { --away: none } .tl-notice { display: var(--away) !important }"),
    "name-of-names": Case(
        style=":root { --a: var(--b); --b: hidden } .tl-notice { visibility: var(--a) }"
    ),
    "width-between": Case(
        style="@media (min-width: 600px) and (max-width: 700px) "
        "{ .tl-notice { display: none !important } }"
    ),
    "width-range": Case(style="@media (width < 400px) { .tl-notice { visibility: hidden } }"),
    "paper": Case(style="@media print { .tl-notice { display: none !important } }"),
    "dark-preferred": Case(
        style="@media (prefers-color-scheme: dark) { .tl-notice { visibility: hidden } }"
    ),
    "tall-screens": Case(
        style="@media (min-height: 100px) { .tl-notice { display: none !important } }"
    ),
    "pointer": Case(style="body:hover .tl-notice { opacity: 0 }"),
    "no-pointer": Case(style="body:not(:hover) .tl-notice { display: none !important }"),
    "first-line": Case(style=".tl-notice__text::first-line { color: transparent }"),
    "first-letter": Case(style="li::first-letter { font-size: 0 }"),
    "unknown-pseudo": Case(style=".tl-notice:brand-new(x) { display: none !important }"),
    "has": Case(style="article:has(.beside) .tl-notice { display: none !important }"),
    "sibling": Case(style="h2 + ul > li:first-child { display: none !important }"),
    "attribute": Case(style='[class^="tl-not"] { display: none !important }'),
    "inline": Case(attributes=' style="display: none"'),
    "inline-case": Case(item=' style="DISPLAY:/* */NONE"'),
    "style-element": Case(head="<style>.tl-notice { display: none !important }</style>"),
    "style-in-article": Case(before="<style>.tl-notice { display: none !important }</style>"),
    "style-in-drawing": Case(
        before="<svg><style>.tl-notice { display: none !important }</style></svg>"
    ),
    "sheet-on-paper": Case(head='<style media="print">.tl-notice { visibility: hidden }</style>'),
    "import": Case(
        head='<style>@import url("own.css");</style>', style=".tl-notice { opacity: 0 }"
    ),
    "import-elsewhere": Case(head='<style>@import "https://studio.test/a.css";</style>'),
    "sheet-elsewhere": Case(head='<link rel="stylesheet" href="https://studio.test/a.css">'),
    "sheet-missing": Case(head='<link rel="stylesheet" href="missing.css">'),
    "base": Case(head='<base href="https://studio.test/">'),
    "refresh": Case(head='<meta http-equiv="Refresh" content="0; url=other.html">'),
    "typeface": Case(
        style='@font-face { font-family: "Blank"; src: url(blank.woff2) }'
        ".tl-notice { font-family: Blank, sans-serif }"
    ),
    "our-typeface": Case(
        style='@font-face { font-family: "Tempoleaf Sans"; src: url(blank.woff2) }'
    ),
    "property": Case(
        style='@property --tl-ink { syntax: "<color>"; inherits: false; initial-value: white }'
    ),
    "page": Case(style="@page { size: 1mm 1mm }"),
    "unknown-property": _on_notice("brand-new: away"),
    "all": _on_notice("all: initial"),
    "hidden": Case(item=" hidden"),
    "hidden-until-found": Case(item=' hidden="until-found"'),
    "aria-hidden": Case(item=' aria-hidden="true"'),
    "inert": Case(wrap=("<div inert>", "</div>")),
    "popover": Case(wrap=("<div popover>", "</div>")),
    "details": Case(wrap=("<details><summary>More</summary>", "</details>")),
    "dialog": Case(wrap=("<dialog>", "</dialog>")),
    "template": Case(wrap=("<template>", "</template>")),
    "noscript": Case(wrap=("<noscript>", "</noscript>")),
    "textarea": Case(wrap=("<textarea>", "</textarea>")),
    "comment": Case(wrap=("<!--", "-->")),
    "script": Case(wrap=('<script type="text/plain">', "</script>")),
    "shadow": Case(wrap=('<div><template shadowrootmode="open">Rest</template>', "</div>")),
    "marquee": Case(wrap=("<marquee>", "</marquee>")),
    "select": Case(wrap=("<select><option>", "</option></select>")),
    "canvas": Case(wrap=("<canvas>", "</canvas>")),
    "video": Case(wrap=("<video>", "</video>")),
    "object": Case(wrap=('<object data="index.html">', "</object>")),
    "drawing-text": Case(wrap=("<svg><desc>", "</desc></svg>")),
    "struck": Case(wrap=("<del>", "</del>")),
    "bidi": Case(wrap=('<bdo dir="rtl">', "</bdo>")),
    "rule-of-ours": Case(item=' id="card-to-print"'),
    "class-of-ours": Case(wrap=('<div class="tl-unseen">', "</div>")),
    "class-of-the-theme": Case(wrap=('<div class="md-tooltip">', "</div>")),
    "overlooked-in-print": Case(wrap=('<div class="tl-note">', "</div>")),
    "tab": Case(
        wrap=(
            '<div class="tabbed-set"><input checked id="a" name="t" type="radio">'
            '<input id="b" name="t" type="radio"><div class="tabbed-content">'
            '<div class="tabbed-block">Rest</div><div class="tabbed-block">',
            "</div></div></div>",
        )
    ),
    "words-between": Case(words=WORDS.replace("stop", "stop<b hidden>not</b>")),
    "letters-drawn": Case(words=WORDS.replace("now", "<svg><text>now</text></svg>")),
    "other-words": Case(words="Rest."),
    "for-scripts": Case(item=" data-tl-scriptless"),
    "border-radius": _on_notice("border-radius: 400px; overflow: hidden"),
    "columns-of-grid": Case(
        style=".tl-notices { display: grid; grid-template-columns: 900px 1px }"
    ),
    "case-of-values": Case(style="[dir=LTR] .tl-notice { display: none !important }"),
    "comment-in-value": Case(style=".tl-notice { display: none/**/ !important }"),
    "escaped": Case(style=".tl-notice { d\\69splay: n\\6fne !important }"),
    "after-a-rule": Case(
        style="li.tl-notice { display: none !important; & { display: flex !important }"
        " display: none !important }"
    ),
    "shown-by-choice": Case(
        style=_GONE, head=f'<link rel="alternate stylesheet" href="own2.css"><style>{_GONE}</style>'
    ),
    "shown-by-title": Case(style=_GONE, head=f'<style title="Large">{_BACK}</style>'),
    "shown-by-other-kind": Case(style=_GONE, head=f'<style type="text/x">{_BACK}</style>'),
    "shown-without-scripts": Case(
        style=_GONE, before=f"<noscript><style>{_BACK}</style></noscript>"
    ),
    "shown-in-drawing": Case(style=_GONE, before=f"<svg><style>{_BACK}</style></svg>"),
    "shown-by-late-import": Case(
        head=f'<style>.tl-notice {{ display: none }} @import "own.css"; {_GONE}</style>',
        style=_BACK,
    ),
    "shown-when-touched": Case(style=f"{_GONE} li.tl-notice:hover {{ display: flex !important }}"),
    "shown-perhaps": Case(style=f"{_GONE} @supports (display: grid) {{ {_BACK} }}"),
    "shown-on-one-width": Case(style=f"{_GONE} @media (width >= 1200px) {{ {_BACK} }}"),
    "broken-value": Case(
        style="li.tl-notice { color: #fbfaf6 !important; color: brand-new !important }"
    ),
    "viewport": Case(
        head='<meta name="viewport" content="width=9999, initial-scale=0.04, user-scalable=no">'
    ),
    "letters-of-old": Case(head='<meta charset="windows-1252">'),
    "quirks": Case(
        page=_PAGE.replace(
            "<!doctype html>", '<!doctype html public "-//W3C//DTD HTML 3.2 Final//EN">'
        )
    ),
    "charset-of-sheet": Case(style='@charset "utf-16"; .tl-notice { color: #000 }'),
    "deep": Case(wrap=("<div>" * 2000, "</div>" * 2000)),
    "many-steps": Case(style="* * * * * * * * * * .beside { position: fixed; inset: 0 }"),
    "heavy-nesting": Case(style="".join(".a, .b { & &, &" for _ in range(12)) + "}" * 12),
    "heavy-conditions": Case(
        style="".join(
            f"@media (min-width: {n}px) {{ p {{ color: red }} }}" for n in range(400, 900)
        )
    ),
    "heavy-selector": Case(style=":is(" * 500 + ".a" + ")" * 500 + "{ display: none }"),
    "heavy-value": Case(style=".tl-notice { color: " + "var(--a, " * 900 + "red" + ")" * 900 + "}"),
    "heavy-siblings": Case(
        style="p ~ p ~ p ~ p ~ p ~ .beside { display: none }", before="<p>Rest</p>" * 300
    ),
    "import-of-itself": Case(style='@import "own.css"; @import "own.css";'),
    "address": Case(
        style='a[href="#b"] { display: none }',
        words=WORDS.replace("Pain", '<a href="#a">Pain</a>').replace(
            "faint", '<a href="#b">faint</a>'
        ),
    ),
    "list-words": _on_notice('display: list-item; list-style: inside "This is out of date: "'),
    "list-words-type": _on_notice('display: list-item; list-style-type: "Out of date: "'),
    "list-words-named": Case(
        style='@counter-style denied { system: cyclic; symbols: "Out of date: " }'
        "li.tl-notice { display: list-item; list-style-type: denied }"
    ),
    "quotation-words": Case(
        style='q { quotes: "not " "" }', words=WORDS.replace("stop", "<q>stop</q>")
    ),
    "gap": _on_notice("gap: 9999px"),
    "gap-of-columns": _on_notice("column-gap: 9999px"),
    "gap-of-article": _around("display: grid; row-gap: 50000px"),
    "gap-of-cells": _on_notice("display: table; border-spacing: 9999px"),
    "corner": _on_notice("border-top-left-radius: 400px; overflow: hidden"),
    "corner-logical": _on_notice("border-start-start-radius: 400px; overflow: hidden"),
    "transition": _on_notice("transition: color 99999s"),
    "transition-late": _on_notice("transition: color 0s 99999s"),
    "slanted": _on_notice("font-style: oblique 89deg"),
    "emphasis-marks": _on_notice('text-emphasis: "\u2588"'),
    "raised": Case(style=".tl-notice__text { vertical-align: -9999px }"),
    "signs": _on_notice("font-family: Wingdings"),
    "signs-first": _on_notice("font: 1rem/1.5 'Webdings', sans-serif"),
    "wide-screens": Case(style="@media (min-width: 2700px) { .tl-notice { visibility: hidden } }"),
    "wide-tab": Case(
        style=".tl-notice__text { white-space: pre-wrap; tab-size: 9999 }", words=f"\t{WORDS}"
    ),
    "longest-line": _on_notice("width: max-content"),
    "narrowest-line": _on_notice("width: min-content; overflow-wrap: anywhere"),
    "details-of-one-name": Case(
        before='<details class="tl-fold" name="a" open><summary>Rest</summary>Rest</details>',
        wrap=('<details class="tl-fold" name="a" open><summary>More</summary>', "</details>"),
    ),
    "shown-by-denied-style": Case(style=_GONE, head=f"<style>{_BACK}</style>"),
    "shown-by-denied-attribute": Case(style=_GONE, item=' style="display: flex !important"'),
    "noscript-comment": Case(
        after=f"<noscript><!-- </noscript><style>{_GONE}</style> --></noscript>"
    ),
    "noscript-attribute": Case(
        after=f'<noscript><p title="</noscript><style>{_GONE}</style>"></noscript>'
    ),
    "noscript-open": Case(
        after=f"<noscript><textarea></noscript><style>{_GONE}</style></textarea>"
    ),
    "turned": Case(words=f"\u202e{WORDS}\u202c"),
    "turned-before": Case(before="<p>Rest.\u2067</p>"),
    "struck-by-marks": Case(words=WORDS.replace("stop", "s\u0336t\u0336o\u0336p\u0336")),
    "marks-piled-up": Case(after="<p>R" + "\u030e" * 60 + "est</p>"),
    "field-between": Case(words=WORDS.replace("stop", '<input value="never"> stop')),
    "picture-between": Case(words=WORDS.replace("stop", '<img src="not.png" alt=""> stop')),
    "drawing-between": Case(words=WORDS.replace("stop", "<svg><text>never</text></svg> stop")),
    "cells-beside": Case(
        wrap=(f"<table><tr>{'<td>Rest</td>' * 60}<td>", "</td></tr></table>"),
    ),
    "no-encoding": Case(page=_PAGE.replace('<meta charset="utf-8">', "")),
    "late-encoding": Case(
        page=_PAGE.replace('<meta charset="utf-8">', f"<!--{'rest ' * 250}--><meta charset=utf-8>")
    ),
    "dark-canvas": Case(head='<meta name="color-scheme" content="light dark">'),
    "letters-exchanged": Case(is_with_other_letters=True),
    "no-doctype": Case(page=_PAGE.replace("<!doctype html>\n", "")),
}
"""Pages that hide the notice, or may."""

AWAY = {
    "absolute": _on_notice("position: absolute; left: -9999px"),
    "fixed": _on_notice("position: fixed; top: -500px"),
    "relative": _on_notice("position: relative; left: -200vw"),
    "inset": _on_notice("position: relative; inset: 0 0 0 -9999px"),
    "text-indent": _on_notice("text-indent: -9999px"),
    "margin": _on_notice("margin-left: -9999px"),
    "margin-calc": _on_notice("margin-left: calc(-1 * 9999px)"),
    "margin-away": _on_notice("margin-inline-start: 200vw"),
    "padding": _on_notice("padding-left: 9999px"),
    "margins-in-margins": Case(
        style=".tl-notices, .tl-notice, .tl-notice__text { margin-left: 90px !important }"
    ),
    "transform": _on_notice("transform: scale(0)"),
    "translate": _on_notice("translate: -9999px"),
    "rotate": _on_notice("rotate: x 90deg"),
    "scale": _on_notice("scale: 0.01"),
    "transform-of-article": _around("transform: translateX(-200vw)"),
    "zoom": _on_notice("zoom: 0.1"),
    "border": _on_notice("border-left: 9999px solid transparent"),
    "offset-path": _on_notice("offset-path: path('M -9999 0')"),
}
"""Pages that move the notice away."""

SMALL = {
    "size": _on_notice("font-size: 0"),
    "tiny": _on_notice("font-size: 1px"),
    "size-of-page": Case(style="html { font-size: 5px !important }"),
    "size-on-phones": Case(
        style="@media (max-width: 30em) { article.md-typeset .tl-notice { font-size: 4px } }"
    ),
    "em-in-em": Case(style="article, article ul, .tl-notice { font-size: 0.6em !important }"),
    "font": _on_notice("font: 3px/1.5 serif"),
    "clamp": _on_notice("font-size: clamp(2px, 1vw, 9px)"),
    "calc": _on_notice("font-size: calc(20px - 5vw)"),
    "unknown-size": _on_notice("font-size: 20quarks"),
    "percent": _on_notice("font-size: 10%"),
    "word": _on_notice("font-size: xx-small"),
}
"""Pages whose notice is too small."""

PALE = {
    "white": _on_notice("color: #fbfaf6"),
    "transparent": _on_notice("color: transparent"),
    "grey": _on_notice("color: #999"),
    "alpha": _on_notice("color: rgb(29 43 42 / 30%)"),
    "dark-only": Case(style='[data-md-color-scheme="slate"] .tl-notice { color: #151b1c }'),
    "light-only": Case(style='[data-md-color-scheme="default"] .tl-notice { color: #fff }'),
    "ink": Case(style=":root { --tl-ink: #fbfaf6 }"),
    "ground": _on_notice("background: #1d2b2a"),
    "ground-colour": _on_notice("background-color: rgb(29 43 42)"),
    "ground-picture": _on_notice("background-image: linear-gradient(#1d2b2a, #1d2b2a)"),
    "ground-of-article": _around("background: url(dark.png)"),
    "opacity": _on_notice("opacity: 0.3"),
    "opacity-none": _on_notice("opacity: 0"),
    "opacity-of-article": _around("opacity: 5%"),
    "opacity-twice": Case(style="article, .tl-notices { opacity: 0.5 }"),
    "fill": _on_notice("-webkit-text-fill-color: transparent"),
    "fill-of-article": _around("-webkit-text-fill-color: #fbfaf6"),
    "mix": _on_notice("color: color-mix(in srgb, #1d2b2a 5%, #fbfaf6)"),
    "unknown-colour": _on_notice("color: brand-new(1 2 3)"),
    "white-on-paper": Case(style="@media print { .tl-notice { color: #fff; background: #000 } }"),
    "inline-colour": Case(attributes=' style="color: #fbfaf6"'),
    "name-of-colour": Case(style=".tl-notice { color: var(--tl-paper) }"),
}
"""Pages whose notice is too pale in one of the schemes or on paper."""

COVERED = {
    "block-absolute": _block("position: absolute; inset: 0; background: #fff"),
    "block-fixed": _block("position:fixed;top:0;left:0;width:100%;height:100%;background:#fff"),
    "block-sticky": _block("position: sticky; top: 0; background: #fff"),
    "block-margin": _block("margin-top: -300px; background: #fff"),
    "block-transform": _block("transform: translateY(-300px); background: #fff"),
    "block-translate": _block("translate: 0 -300px; background: #fff"),
    "block-relative": _block("position: relative; top: -300px; background: #fff"),
    "block-line": _block("line-height: 0; font-size: 400px"),
    "block-low": _block("height: 0; font-size: 400px"),
    "block-shadow": _block("display: inline-block; box-shadow: 0 0 0 900px #fff"),
    "block-outline": _block("outline: 900px solid #fff"),
    "block-text-shadow": _block("text-shadow: 0 -200px 0 #000, 0 -220px 0 #000"),
    "block-filter": _block("filter: drop-shadow(0 -200px 0 #000)"),
    "block-stroke": _block("-webkit-text-stroke: 300px #000"),
    "block-unknown": _block("brand-new-place: over-all"),
    "rule": Case(style=".beside { position: absolute; inset: 0; background: #fff }"),
    "rule-before": Case(
        style='.beside::before { content: ""; position: fixed; inset: 0; background: #fff }'
    ),
    "rule-after-notice": Case(
        style='.tl-notice::after { content: ""; position: absolute; inset: 0; background: #fff }'
    ),
    "rule-on-hover": Case(style=".beside:hover { position: fixed; inset: 0; background: #fff }"),
    "rule-grid": Case(style=".beside { grid-area: 1 / 1; background: #fff }"),
    "rule-of-frame": Case(style=".md-main::after { content: ''; position: fixed; inset: 0 }"),
    "words-before": Case(style='.tl-notice::before { content: "This is out of date:" }'),
    "words-in-marker": Case(
        style='li.tl-notice { display: list-item } li::marker { content: "Out of date: " }'
    ),
    "words-by-counter": Case(
        style='@counter-style denied { system: cyclic; symbols: "Out of date: " }'
        ".tl-notice::before { content: counter(x, denied) }"
    ),
    "words-between-pictures": Case(
        style='.tl-notice::before { content: url(a.png) "Out of date: " url(b.png) }'
    ),
    "word-of-three": Case(style='.tl-notice__text::before { content: "NOT" }'),
    "turned-before-words": Case(style='.tl-notice__text::before { content: "\\202e" }'),
    "picture-before": Case(style=".tl-notice::before { content: url(a.png) }"),
    "header-padded": Case(
        style=".md-header__inner, .md-header__title { padding: 160px 0 }",
        page=_PAGE.replace(
            '<div class="md-container">',
            '<header class="md-header"><nav class="md-header__inner"><b class="md-header__title">'
            'Rest</b></nav></header><div class="md-container">',
        ),
    ),
    "map-let-out": Case(
        after='<svg class="tl-map" viewBox="0 0 9 9" width="9" height="9">'
        '<rect x="-999" y="-999" width="9999" height="9999" fill="#fff"/></svg>'
    ),
    "frame-in-article": Case(before=f'<div class="md-search__form">{"█<br>" * 9}</div>'),
    "low-box": Case(before=f'<div class="tl-pacer__bar">{"█<br>" * 9}</div>'),
    "dialog-open": Case(after='<dialog open class="tl-pacer">Rest</dialog>'),
    "newer": Case(after='<div class="tl-newer">Rest<br>Rest<br>Rest</div>'),
    "newer-outside": Case(
        page=_PAGE.replace("</body>", '<div class="tl-newer">Rest<br>Rest</div></body>')
    ),
    "overlay": Case(after='<label class="md-overlay">Rest</label>'),
    "drawer": Case(before='<input class="md-toggle" id="__drawer" type="checkbox" checked>'),
    "drawing": Case(
        after='<svg width="1" height="1" overflow="visible">'
        '<rect x="-999" y="-999" width="9999" height="9999" fill="#fff"/></svg>'
    ),
    "drawing-moved": Case(
        after='<svg width="900" height="900" transform="translate(0 -600)">'
        '<rect width="900" height="900" fill="#fff"/></svg>'
    ),
    "drawing-animated": Case(
        after='<svg width="1" height="1"><set attributeName="overflow" to="visible"/>'
        '<rect width="9999" height="9999" fill="#fff"/></svg>'
    ),
    "formula": Case(
        after='<math><mpadded voffset="300px" height="0" depth="0"><mtext>Rest</mtext></mpadded>'
        "</math>"
    ),
    "drawing-let-out": Case(
        style="article svg { overflow: visible }",
        after='<svg viewBox="0 0 1 1" width="1"><rect x="-999" width="9999" height="9999"/></svg>',
    ),
    "picture-let-out": Case(
        style="img { overflow: visible; object-fit: none }", after='<img src="a.png" alt="">'
    ),
    "overlay-shown": Case(
        style=".md-overlay { width: 100%; height: 100%; opacity: 1 }",
        page=_PAGE.replace(
            '<div class="md-container">',
            '<label class="md-overlay" for="__drawer"></label><div class="md-container">',
        ),
    ),
    "header-tall": Case(
        style=".md-header { min-height: 100vh }",
        page=_PAGE.replace(
            '<div class="md-container">',
            '<header class="md-header">Rest</header><div class="md-container">',
        ),
    ),
    "header-letters": Case(
        style=".md-header__title { font-size: 900px }",
        page=_PAGE.replace(
            '<div class="md-container">',
            '<header class="md-header"><b class="md-header__title">Rest</b></header>'
            '<div class="md-container">',
        ),
    ),
    "behind": _on_notice("position: relative; z-index: -1"),
}
"""Pages that lay something over the notice, or may."""

HONEST = {
    "as-built": Case(),
    "colour": Case(
        style=".tl-notice { color: #7a1f1f } @media screen { [data-md-color-scheme=slate] "
        ".tl-notice { color: #ffb3b3 } }"
    ),
    "size": _on_notice("font-size: 1.3rem"),
    "bold": _on_notice("font-weight: 700; font-style: italic"),
    "box": _on_notice("padding: 1em; border: 2px solid; border-radius: 4px; margin: 1em 0"),
    "ground": _on_notice("background: #fff3d6; color: #3a2a00"),
    "ground-none": _on_notice("background: none"),
    "wide-only": Case(style="@media (min-width: 60em) { .tl-notice { font-size: 1rem } }"),
    "hidden-elsewhere": Case(style=".no-such { display: none }"),
    "placed-elsewhere": Case(style=".no-such { position: fixed; inset: 0 }"),
    "beside-hidden": Case(style=".beside { display: none }"),
    "beside-coloured": Case(style=".beside { background: #ff0; color: #000; padding: 1em }"),
    "lost-to-ours": Case(style="li { visibility: hidden } article li { visibility: visible }"),
    "lost-to-later": Case(style=".tl-notice { display: none } .tl-notice { display: flex }"),
    "lost-to-important": Case(
        style=".tl-notice { display: flex !important } li.tl-notice { display: none }"
    ),
    "broken-rule": Case(style=".tl-notice { color } h1 { color: #234; }"),
    "scrollbar": Case(style="::-webkit-scrollbar { width: 8px } ::selection { color: #fff }"),
    "in-words": Case(words=WORDS.replace("faint", "<a class='tl-term' href='#'>faint</a>")),
    "emphasis": Case(words=WORDS.replace("stop", "<strong>st<em>op</em></strong>")),
    "drawing": Case(before='<svg viewBox="0 0 9 9" width="9"><rect width="9" height="9"/></svg>'),
    "picture": Case(
        style="article img { height: 40px; max-width: 100% }",
        before='<img src="none.png" alt="A mat">',
    ),
    "table-aligned": Case(after='<table><tr><td style="text-align: left;">1</td></tr></table>'),
    "viewport-twice": Case(head='<meta name="viewport" content="width=device-width">'),
    "header-coloured": Case(
        style=".md-header { background: #123; color: #fff }",
        page=_PAGE.replace(
            '<div class="md-container">',
            '<header class="md-header">Rest</header><div class="md-container">',
        ),
    ),
    "logo": Case(style=".md-logo img { height: 2rem; width: auto }"),
    "cards": Case(
        style=".studio { display: grid; grid-template-columns: 1fr 1fr; gap: 1rem }",
        after='<div class="studio"><p>One</p><p>Two</p></div>',
    ),
    "details-open": Case(
        wrap=('<details open class="tl-fold"><summary>Cautions</summary>', "</details>")
    ),
    "twice": Case(before=f"<div hidden>{WORDS}</div>"),
    "supports-elsewhere": Case(style="@supports (display: grid) { .beside { color: #234 } }"),
    "paper-margin": Case(style="@page { margin: 2cm }"),
    "layer": Case(style="@layer a { .tl-notice { display: none } } .tl-notice { display: flex }"),
    "unseen-beside": Case(words=f"{WORDS} <span class='tl-unseen'>on stop signs</span>"),
    "bullets": Case(style='.tl-notice::before { content: "\\2022  " }'),
    "numbers": Case(style=".beside::before { counter-increment: x; content: counter(x) }"),
    "list-of-squares": Case(style=".tl-notices { list-style: square inside }"),
    "other-letters": _on_notice('font-family: Georgia, "Times New Roman", serif'),
    "gap": Case(style=".tl-notices { display: grid; gap: 1rem }"),
    "transition": _on_notice("transition: color 0.2s ease-in, background 200ms"),
    "quotation": Case(style='q { quotes: "\u201e" "\u201c" }', words=WORDS),
    "round": _on_notice("border-top-left-radius: 8px"),
    "without-scripts": Case(after="<noscript><p>Rest</p></noscript>"),
    "light-canvas": Case(head='<meta name="color-scheme" content="light">'),
    "style-in-page": Case(head="<style>.tl-notice { font-weight: 700 }</style>"),
    "visible-in-hidden": Case(
        style="article { visibility: hidden } article * { visibility: visible }"
    ),
}
"""Pages on which a reader sees the notice."""
