"""Short texts under trial: counts as they are typed in a terminal, and words in a drawing."""

import json
import re
from xml.etree import ElementTree as ET

from builder.course.tempo import Tempo
from builder.drawing.svg import Frame, element, finish
from builder.errors import InvalidValueError
from builder.publishing.cards.drawings import set_drawings_aside
from builder.publishing.cards.ink import take_ink
from builder.publishing.pages.svg_markup import place_svg
from builder.reading.scalars import read_tempo
from builder.reading.yaml_tree import read_scalar, read_yaml
from tests.fuzz.desk import read_files
from tests.fuzz.kinds import Answer, Target

_SEEN = re.compile("[^\x00-\x08\x0b-\x1f\ufffe\uffff\ud800-\udfff]")
_TEMPOS = (b"4-1-4-1", b"4-pause-5.5-2", b"natural", b"4:1:4:1", b"4 1 4 1", b"60-0-60-0", b"3-0-6")


def read_tempo_bytes(data: bytes) -> Answer:
    """Read a count; what it says of a bad one takes the place of findings."""
    text = data.decode("utf-8", "surrogateescape")  # as a terminal hands over what is no text
    try:
        value = read_tempo(read_scalar(text)) or "natural"
    except InvalidValueError as error:
        is_told = bool(error.fact.strip() and error.cure.strip())
        return Answer(again=lambda: is_told, expected=True)
    if not isinstance(value, Tempo):
        return Answer(value)
    return Answer(value, again=lambda: Tempo.parse(str(value)), expected=value)


def read_yaml_bytes(data: bytes) -> Answer:
    """Read YAML by itself; what is read must be what JSON can hold."""
    tree, findings = read_yaml(data.decode("utf-8", "replace"), "any.yml")
    if tree is None:
        return Answer(None, tuple(findings), None)
    plain = dict(tree.values)
    return Answer(
        plain, tuple(findings), None, lambda: json.loads(json.dumps(plain)), expected=plain
    )


def draw_words(data: bytes) -> Answer:
    """Set an author's words into a drawing, and read it as cards and pages do."""
    text = data.decode("utf-8", "replace")
    frame = Frame("trial", 40, 30, text, text)
    line = element("path", d="M 0 0 L 1 1", stroke="#000", fill="none")
    words = element("text", text, x=1.0, y=2.0, class_=text)
    svg = finish(frame, line, words)
    ET.fromstring(svg.encode())  # noqa: S314  # ours, which is what is tried
    inked, _ = take_ink(svg.encode(), "a")
    page = f"<p>before</p>{place_svg(svg)}<p>after</p>"
    html, drawings = set_drawings_aside(page, "x/")
    kept = [ET.fromstring(each) for each in (inked, *drawings.values())]  # noqa: S314  # as above
    shown = ["".join(_SEEN.findall(root.findtext("{*}title") or "")) for root in kept]
    whole = html.startswith("<p>before</p>") and html.endswith("<p>after</p>")
    return Answer(tuple(shown), again=lambda: (whole, len(drawings)), expected=(True, 1))


VALUE_TARGETS = (
    Target("tempo", read_tempo_bytes, lambda: _TEMPOS, ("pause", "natural", "-", "0.5", "\u2013")),
    Target(
        "yaml",
        read_yaml_bytes,
        lambda: read_files("content/*.yml", "demo_program/*/*.yml", "*.yml"),
        ("key", "<<", "=", "!!str", "|2", ">-"),
    ),
    Target(
        "drawing-words",
        draw_words,
        lambda: (b"A quiet breath", b"Ribs & <b>belly</b>", b"</title></svg><script>", b'" x="'),
        ("</title>", "</svg>", '<svg role="img" xmlns="http://www.w3.org/2000/svg">', "<title>"),
    ),
)
