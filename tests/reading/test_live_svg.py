"""What a drawing does more than show lines, told with its line; what programs save is no fault."""

import pytest

from builder.publishing.site.files import find_own_file_faults
from builder.reading.live_svg import find_live_parts
from tests.conftest import WriteCourse

BEGIN = (
    '<svg xmlns="http://www.w3.org/2000/svg" xmlns:x="http://www.w3.org/1999/xlink" '
    'xmlns:h="http://www.w3.org/1999/xhtml" viewBox="0 0 9 9">\n'
)
LIVE = {
    "a script": "<script>x()</script>",
    "a script of a page": "<h:script>x()</h:script>",
    "a page inside": "<foreignObject/>",
    "an event": '<rect onload="x()"/>',
    "a link that runs": '<a href="java&#9;script:x()"><text>x</text></a>',
    "an old link that runs": '<a x:href=" javascript:x()"/>',
    "a picture from elsewhere": '<image href="https://canary.invalid/a.png"/>',
    "a picture without a scheme": '<image x:href="//canary.invalid/a.png"/>',
    "a drawing in an address": '<image href="data:image/svg+xml,x"/>',
    "a part from elsewhere": '<use href="https://canary.invalid/a.svg#b"/>',
    "a moved address": '<a><set attributeName="xlink:href" to="javascript:x()"/></a>',
    "a moved event": '<set attributeName="onclick" to="x()"/>',
    "a filter": '<feImage href="file:///etc/hostname"/>',
    "a fill": '<rect fill="url( https://canary.invalid/a#b )"/>',
    "a style": '<rect style="fill:URL(//canary.invalid/a)"/>',
    "a spelt style": '<rect style="fill:u\\72l(x)"/>',
    "a sheet": "<style>@import 'a.css';</style>",
    "letters": "<style>@font-face{src:url('https://canary.invalid/a')}</style>",
    "words cut apart": "<style>.a{fill:url(https:<![CDATA[//canary.invalid)]]>}</style>",
}
QUIET = {
    "parts": '<defs><g id="a"/></defs><use x:href="#a"/><use href="#a"/><rect fill="url(#a)"/>',
    "a style": '<style>.a{fill:#123;clip-path:url("#a")}</style><rect class="a" style="fill:red"/>',
    "a picture in it": '<image href="data:image/png;base64,AAAA"/>',
    "a link": '<a href="https://small.example/"><text>our page</text></a>',
    "what a program notes": '<metadata><i:view xmlns:i="urn:x" i:zoom="1"/></metadata>',
    "a movement": '<rect><animate attributeName="x" from="0" to="9" dur="4s"/></rect>',
}


@pytest.mark.parametrize("inside", LIVE.values(), ids=LIVE)
def test_what_runs_or_fetches_is_told_with_its_line(inside: str) -> None:
    told = find_live_parts(f"{BEGIN}{inside}\n</svg>".encode())
    assert [fault.line for fault in told] == [2]


@pytest.mark.parametrize("inside", QUIET.values(), ids=QUIET)
def test_what_drawing_programs_save_is_in_order(inside: str) -> None:
    assert find_live_parts(f"{BEGIN}{inside}\n</svg>".encode()) == ()


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\x00\xff",
        b"<svg><script>x()</script>",
        b'<?xml version="1.0" encoding="none-such"?><svg/>',
        b'<?xml-stylesheet href="a.css"?><svg/>',
        b"<!DOCTYPE svg ["
        + b"".join(b'<!ENTITY a%d "%s">' % (n, b"&a%d;" % (n - 1) * 20) for n in range(1, 12))
        + b'<!ENTITY a0 "x">]><svg><text>&a11;</text></svg>',
    ],
    ids=["nothing", "no words", "cut short", "unknown letters", "a sheet before it", "a bomb"],
)
def test_what_cant_be_read_to_its_end_is_told(content: bytes) -> None:
    assert find_live_parts(content)


def test_an_order_to_read_another_file_is_not_followed() -> None:
    words = b'<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///dev/zero">]><svg><text>&x;</text></svg>'
    assert find_live_parts(words) == ()


@pytest.mark.parametrize("name", ["mat.svg", "mat.SVG", "lessons/count/mat.svg"])
def test_a_live_drawing_of_a_trusted_course_is_a_finding(
    write_course: WriteCourse, name: str
) -> None:
    root = write_course({f"content/{name}": f"{BEGIN}<script>x()</script></svg>"})
    assert [str(each) for each in find_own_file_faults(root, "content")] == [
        f'content/{name}:2:1: U104 picture-unsafe: the drawing holds "<script>"; '
        "take it out, or save the drawing as plain SVG."
    ]
