"""Ways in which a text, a picture or another file tries to be more than data.

The list follows section by section what is published about Markdown hosts, browsers and engines
that make PDFs: raw HTML and `attr_list` (Python-Markdown's own documentation says that it
sanitises nothing), the URL standard of the WHATWG for what browsers pass over in an address, the
SVG specification (scripts, `foreignObject`, references), the XML specification (entities), PNG,
JPEG and WebP for what may stand beside the dots, `pymdownx.snippets` (CVE-2023-32309,
CVE-2026-46338). The vectors themselves are ours.
"""

import zlib
from base64 import b64decode
from dataclasses import dataclass
from io import BytesIO
from struct import pack

from PIL import Image

HOST = "canary.invalid"
"""A host that nobody may ask; RFC 6761 says that no name server knows it."""
PAGE = "content/word.md"
LESSON = "content/lessons/count/long-out.md"
NOTICE = "content/notices/floor.md"


@dataclass(frozen=True)
class Vector:
    """One file of a hostile course, and where the first finding in it stands."""

    name: str
    file: str
    content: str | bytes
    rule: str
    line: int


def page(name: str, text: str, rule: str = "U101", line: int = 3) -> Vector:
    """Put a text on a page below its heading."""
    return Vector(name, f"content/{name}.md", f"# Word\n\n{text}\n", rule, line)


def drawing(name: str, inside: str, line: int = 2, attributes: str = "") -> Vector:
    """Put parts into a drawing."""
    text = (
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        f'viewBox="0 0 9 9"{attributes}>\n{inside}\n</svg>\n'
    )
    return Vector(name, f"content/{name}.svg", text, "U104", line)


def file(name: str, content: str | bytes, rule: str = "U103") -> Vector:
    """Put a file of another kind beside the pages."""
    return Vector(name, f"content/{name}", content, rule, 1)


RUN = "window.pwned=1"
ELEMENTS = (
    page("script", f"<script>{RUN}</script>"),
    page("script-source", f'<script src="https://{HOST}/a.js"></script>'),
    page("script-in-capitals", f"<ScRiPt>{RUN}</sCrIpT>"),
    page("script-in-words", f"Softly <script>{RUN}</script> now."),
    page("script-behind-an-open-fence", f"```\n<script>{RUN}</script>"),
    page("picture-behind-a-named-fence", f'``` text\n<img src="x" onerror="{RUN}">'),
    page("picture-between-back-quotes", f'`` ` `` <img src=x onerror="{RUN}"> `` ` ``'),
    page("picture-behind-escaped-quotes", f'\\`<img src=x onerror="{RUN}">\\`'),
    page("script-in-a-quotation", f"> ```\n> <script>{RUN}</script>", line=4),
    page("on-error", f'<img src="x" onerror="{RUN}">'),
    page("on-error-broken", f'<img src="x"\nonerror="{RUN}"\n>'),
    page("on-load", f'<body onload="{RUN}">'),
    page("on-toggle", f'<details open ontoggle="{RUN}"><summary>x</summary></details>'),
    page("details-that-hide", "<details>\n\nStop if it hurts.\n\n</details>"),
    page("style-attribute", '<p style="position:fixed;inset:0">x</p>'),
    page("style-element", "<style>.tl-notice{display:none}</style>"),
    page("style-import", f'<style>@import url("https://{HOST}/a.css");</style>'),
    page("srcset", f'<img src="" srcset="https://{HOST}/a.png 1x">'),
    page("iframe", f'<iframe src="https://{HOST}/"></iframe>'),
    page("iframe-srcdoc", f'<iframe srcdoc="<script>parent.{RUN}</script>"></iframe>'),
    page("object", f'<object data="https://{HOST}/a.svg"></object>'),
    page("embed", f'<embed src="https://{HOST}/a.svg">'),
    page("link-style", f'<link rel="stylesheet" href="https://{HOST}/a.css">'),
    page("link-attachment", '<link rel="attachment" href="file:///etc/hostname">'),
    page("meta-refresh", f'<meta http-equiv="refresh" content="0;url=https://{HOST}/">'),
    page("base", f'<base href="https://{HOST}/">'),
    page("form", f'<form action="https://{HOST}/"><input name="a"><button>Go</button></form>'),
    page("template", f"<template><script>{RUN}</script></template>"),
    page("math", f'<math><maction actiontype="statusline" xlink:href="javascript:{RUN}">x'),
    page("svg-in-markdown", f'<svg><animate onbegin="{RUN}" attributeName="x"/></svg>'),
    page("comment", "<!-- hides the end"),
    page("harmless-html", "Softly <em>now</em>."),
    page("closing-tag", "Softly </div></article> now."),
    page("cdata", f"<![CDATA[<script>{RUN}</script>]]>"),
    page("processing-order", "<?php echo 1 ?>"),
    page("noscript", f'<noscript><p title="</noscript><img src=x onerror={RUN}>">'),
)
ORDERS = (
    page("attributes-on-a-line", f'Softly. {{: onclick="{RUN}" }}'),
    page("attributes-on-a-heading", f'## Now {{ #x onmouseover="{RUN}" }}'),
    page("attributes-on-a-fence", f'``` {{ .text onclick="{RUN}" }}\nx\n```'),
    page("template-value", "{{ config.site_dir }}"),
    page("template-statement", "{% include '/etc/hostname' %}"),
    page("template-in-code", "`{{ 7 * 7 }}`"),
    page("snippet", '--8<-- "/etc/hostname"'),
    page("snippet-block", "--8<--\n/etc/hostname\n--8<--"),
    page("include", "{!/etc/hostname!}"),
    page("directive", "::: builder.errors"),
    page("closed-part", '??? note "More"\n    Stop if it hurts.'),
    page("tab", '=== "One"\n    Stop if it hurts.'),
    page("html-block", "/// html | div\nx\n///"),
    page("mermaid", '``` mermaid\ngraph LR\nclick A "javascript:x"\n```'),
)
ADDRESSES = (
    page("javascript", f"[x](javascript:{RUN})", "U102"),
    page("javascript-in-capitals", f"[x](JaVaScRiPt:{RUN})", "U102"),
    page("javascript-by-entity", f"[x](&#106;avascript:{RUN})", "U102"),
    page("javascript-by-long-entity", f"[x](javascript&colon;{RUN})", "U102"),
    page("javascript-with-tab", f"[x](java&Tab;script:{RUN})", "U102"),
    page("javascript-with-line-end", f"[x](java\nscript:{RUN})", "U102"),
    page("javascript-with-entity-line-end", f"[x](java&#10;script:{RUN})", "U102"),
    page("javascript-behind-a-space", f"[x](< javascript:{RUN}>)", "U102"),
    page("javascript-behind-a-control", f"[x](&#1;javascript:{RUN})", "U102"),
    page("javascript-by-reference", f"[x][y]\n\n[y]: javascript:{RUN}", "U102", 5),
    page("javascript-unused-reference", f"x\n\n[y]:\n  java&Tab;script:{RUN}", "U102", 5),
    page("javascript-in-a-picture", f"![x](javascript:{RUN})", "U102"),
    page("data-link", f"[x](data:text/html,<script>{RUN}</script>)", "U102"),
    page("data-picture", "![x](data:image/svg+xml;base64,PHN2Zy8+)", "U102"),
    page("vbscript", "[x](vbscript:x)", "U102"),
    page("file-link", "[x](file:///etc/hostname)", "U102"),
    page("other-host-link", f"[x](//{HOST}/)", "U102"),
    page("other-host-by-backslashes", f"[x](\\\\\\\\{HOST}/)", "U102"),
    page("picture-from-elsewhere", f"![x](https://{HOST}/a.png)", "U102"),
    page("picture-from-the-same-scheme", f"![x](//{HOST}/a.png)", "U102"),
    page("picture-with-line-end", f"![x](ht\ntps://{HOST}/a.png)", "U102"),
    page("picture-by-backslash", f"![x](/\\{HOST}/a.png)", "U102"),
    page("picture-by-reference", f"![x][y]\n\n[y]: https://{HOST}/a.png", "U102"),
    page("way-out", "[x](../../secret.txt)", "U102"),
    page("picture-way-out", "![x](../../../secret.png)", "U102"),
    page("place-on-the-disk", "[x](/etc/hostname)", "U102"),
    page("feed-of-a-script", f"[x](feed:javascript:{RUN})", "U102"),
    page("blob", "[x](blob:https://a.invalid/1)", "U102"),
)
DRAWINGS = (
    drawing("drawn-script", f"<script>{RUN}</script>"),
    drawing("drawn-onload", "", 1, f' onload="{RUN}"'),
    drawing(
        "drawn-foreign",
        '<foreignObject><body xmlns="http://www.w3.org/1999/xhtml"/></foreignObject>',
    ),
    drawing("drawn-picture", f'<image href="https://{HOST}/a.png"/>'),
    drawing("drawn-use", f'<use xlink:href="https://{HOST}/a.svg#x"/>'),
    drawing("drawn-style", f'<style>@import url("https://{HOST}/a.css");</style>'),
    drawing("drawn-style-attribute", f'<path d="M0 0" style="fill:url(https://{HOST}/a)"/>'),
    drawing("drawn-fill", f'<path d="M0 0" fill="url(https://{HOST}/a#b)"/>'),
    drawing("drawn-link", f'<a xlink:href="javascript:{RUN}"><text>x</text></a>'),
    drawing("drawn-animation", f'<set attributeName="href" to="javascript:{RUN}"/>'),
    drawing("drawn-filter", '<filter id="f"><feImage href="file:///etc/hostname"/></filter>'),
    drawing(
        "drawn-other-format", f'<h:script xmlns:h="http://www.w3.org/1999/xhtml">{RUN}</h:script>'
    ),
    file(
        "drawn-entity.svg",
        '<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/hostname">]>\n'
        '<svg xmlns="http://www.w3.org/2000/svg"><text>&x;</text></svg>',
        "U104",
    ),
    file(
        "drawn-bomb.svg",
        '<!DOCTYPE svg [<!ENTITY a "aaaa"><!ENTITY b "&a;&a;&a;">]>\n'
        '<svg xmlns="http://www.w3.org/2000/svg"><text>&b;</text></svg>',
        "U104",
    ),
    file("drawn-sheet.svg", f'<?xml-stylesheet href="https://{HOST}/a.css"?><svg/>', "U104"),
    file("no-drawing.svg", f"<html><script>{RUN}</script></html>", "U104"),
    file("binary.svg", b"\x00\xff\xfe\x01", "U104"),
)


def _paint(kind: str, **more: object) -> bytes:
    target = BytesIO()
    Image.new("RGB", (8, 8), "teal").save(target, kind, **more)
    return target.getvalue()


def _tell_camera() -> Image.Exif:
    exif = Image.Exif()
    exif[0x010F] = "A camera"
    return exif


def _add_words(png: bytes) -> bytes:
    words = b"tEXtComment\0<script>"
    part = pack(">I", len(words) - 4) + words + pack(">I", zlib.crc32(words))
    return png[:33] + part + png[33:]


GIF = b64decode("R0lGODlhAQABAIAAAAAAAP///yH5BAEAAAAALAAAAAABAAEAAAIBRAA7")
FILES = (
    file("page.html", f"<script>{RUN}</script>"),
    file("page.htm", f"<script>{RUN}</script>"),
    file("page.xhtml", f"<script>{RUN}</script>"),
    file("code.js", RUN),
    file("code.mjs", RUN),
    file("code.wasm", b"\0asm\1\0\0\0"),
    file("code.map", "{}"),
    file("extra.css", ".tl-notice{display:none}"),
    file("paper.pdf", b"%PDF-1.7\n%%EOF\n"),
    file("archive.zip", b"PK\5\6" + bytes(18)),
    file("table.csv", "a,b\n=1+1,2\n"),
    file("table.xlsx", b"PK\5\6" + bytes(18)),
    file("old.gif", GIF),
    file("no-ending", "x"),
    file("_headers", "/*\n  Content-Security-Policy: default-src *\n"),
    file(".htaccess", "Options +Indexes"),
    file("turned-\u202egnp.js", RUN),
    file("turned-\u202ejs.png", _paint("PNG")),
    file("con.png", _paint("PNG")),
    file("html.png", f"<script>{RUN}</script>", "U104"),
    file("other.jpg", _paint("PNG"), "U104"),
    file("after.png", _paint("PNG") + b"PK\3\4<script>", "U104"),
    file("after.jpg", _paint("JPEG") + b"<script>", "U104"),
    file("cut.png", _paint("PNG")[:-9], "U104"),
    file("words.png", _add_words(_paint("PNG")), "U104"),
    file("camera.jpg", _paint("JPEG", exif=_tell_camera()), "U104"),
    file("camera.webp", _paint("WEBP", exif=_tell_camera()), "U104"),
    file("camera.png", _paint("PNG", exif=_tell_camera()), "U104"),
    file("comment.jpg", _paint("JPEG", comment=b"<script>"), "U104"),
)
ALONE = (*ELEMENTS, *ORDERS, *ADDRESSES, *DRAWINGS, *FILES)
"""Those that are files of their own, and so fit into one course."""
