"""Ways to spoil a finished card, made with a library that didn't print it."""

from collections.abc import Callable, Mapping
from io import BytesIO

import pikepdf
from pikepdf import Array, Dictionary, Name, Operator

from builder.publishing.cards.pdf import open_press
from builder.publishing.proof.safety.in_pdf import Asked, sight_in_parts
from builder.publishing.proof.safety.sighting import Box, Sighting
from builder.sums.paper import mm_to_points

NAME = "notice holding"
NOTICE = "High blood pressure: ask your clinician before you hold."
"""Of the small course, on the card of its lesson with a hold."""
A6 = (297.638, 419.528)
_PIXEL = 0.75
"""The engine counts in CSS pixels, from the top of the page."""
_FACE = """
@font-face { font-family: "Source Sans 3"; src: url(course:/fonts/SourceSans3-Regular.ttf) }
@page { size: 105mm 148mm; margin: 5mm }
html { font-family: "Source Sans 3"; font-size: 9pt }
body { margin: 0 }
"""

Change = Callable[[pikepdf.Pdf], None]


def print_words(html: str, style: str = "") -> bytes:
    """Print a page of A6 in the type of the cards."""
    return open_press().lay_out(html, _FACE + style).write()


def sight_in_pdf(pdf: bytes, wanted: Mapping[str, str]) -> dict[str, Sighting]:
    """Find words that must be seen, by name, on any page."""
    return sight_in_parts(pdf, [Asked(slice(None), wanted, {})])[0].seen


def sight(pdf: bytes, words: str = NOTICE) -> Sighting:
    """Return how words are seen."""
    return sight_in_pdf(pdf, {NAME: words})[NAME]


def find_box(pdf: bytes, words: str = NOTICE) -> Box:
    """Return where words stand on a sound file."""
    place = sight(pdf, words).place
    assert place is not None
    assert place.box is not None
    return place.box


def change(pdf: bytes, edit: Change) -> bytes:
    """Return a PDF that was edited."""
    target = BytesIO()
    with pikepdf.open(BytesIO(pdf)) as opened:
        edit(opened)
        opened.save(target)
    return target.getvalue()


def draw(operators: str, *, under: bool = False) -> Change:
    """Draw over a page or under it, in points from its lower left corner."""

    def edit(pdf: pikepdf.Pdf) -> None:
        page = pdf.pages[0]
        page.contents_add(b"q", prepend=True)
        page.contents_add(b"Q")
        page.contents_add(f"q {operators} Q".encode(), prepend=under)

    return edit


def rectangle(box: Box, share: float = 1.0) -> str:
    """Return the operands of a rectangle around some share of a box, from its left."""
    left, width = mm_to_points(box.left_mm) - 1, mm_to_points(box.width_mm) * share + 2
    bottom = A6[1] - mm_to_points(box.top_mm + box.height_mm) - 1
    return f"{left:.2f} {bottom:.2f} {width:.2f} {mm_to_points(box.height_mm) + 2:.2f} re"


def insert(box: Box, before: str, after: str = "") -> Change:
    """Put operators before and after every text that stands in a box."""
    top, bottom = (mm_to_points(side) / _PIXEL for side in (box.top_mm, box.top_mm + box.height_mm))

    def edit(pdf: pikepdf.Pdf) -> None:
        page = pdf.pages[0]
        found: list[object] = []
        text: list[object] = []
        for operands, operator in pikepdf.parse_content_stream(page):
            text.append((operands, operator))
            if operator == Operator("BT"):
                found += text[:-1]
                text = text[-1:]
            elif operator == Operator("ET"):
                places = [float(each[0][5]) for each in text if each[1] == Operator("Tm")]
                is_meant = any(top < place <= bottom + 1 for place in places)
                found += list_operators(before) if is_meant else []
                found += text
                found += list_operators(after) if is_meant else []
                text = []
        page.obj.Contents = pdf.make_stream(pikepdf.unparse_content_stream(found + text))

    return edit


def list_operators(text: str) -> list[object]:
    """Return operators as the library holds them."""
    with pikepdf.new() as pdf:
        return list(pikepdf.parse_content_stream(pdf.make_stream(text.encode())))


def add_resource(pdf: pikepdf.Pdf, kind: str, name: str, value: pikepdf.Object) -> None:
    """Give the first page something that its drawing can name."""
    resources = pdf.pages[0].obj.Resources
    if kind not in resources:
        resources[kind] = Dictionary()
    resources[kind][name] = pdf.make_indirect(value)


def veil(operators: str, **state: object) -> Change:
    """Draw over a page with a state of the graphics, such as how much shines through."""

    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/ExtGState", "/Veil", Dictionary(**state))
        draw(f"/Veil gs {operators}")(pdf)

    return edit


def cover_with_note(box: Box, *, has_look: bool = True, **entries: object) -> Change:
    """Lay a white rectangle over words as a note."""
    left, bottom, width, height = (float(side) for side in rectangle(box).split()[:4])

    def edit(pdf: pikepdf.Pdf) -> None:
        white = pdf.make_stream(
            f"1 g 0 0 {width} {height} re f".encode(),
            Type=Name.XObject,
            Subtype=Name.Form,
            BBox=[0, 0, width, height],
        )
        note = Dictionary(
            Type=Name.Annot,
            Subtype=Name.Square,
            Rect=[left, bottom, left + width, bottom + height],
            AP=Dictionary(N=white),
        )
        for entry, value in entries.items():
            note[f"/{entry}"] = value
        if not has_look:
            del note["/AP"]
        pdf.pages[0].obj["/Annots"] = Array([pdf.make_indirect(note)])

    return edit


def put_on_layer(box: Box, *, is_on: bool, **usage: object) -> Change:
    """Put words on a layer (ISO 32000-2, 8.11)."""

    def edit(pdf: pikepdf.Pdf) -> None:
        layer = pdf.make_indirect(Dictionary(Type=Name.OCG, Name="words", **usage))
        pdf.Root.OCProperties = Dictionary(
            OCGs=[layer],
            D=Dictionary(
                ON=[layer] if is_on else [],
                OFF=[] if is_on else [layer],
                AS=[
                    Dictionary(Event=Name(f"/{event}"), Category=[Name(f"/{event}")], OCGs=[layer])
                    for event in ("View", "Print")
                ],
            ),
        )
        add_resource(pdf, "/Properties", "/Layer", layer)
        insert(box, "/OC /Layer BDC", "EMC")(pdf)

    return edit


def put_aside(pdf: pikepdf.Pdf) -> pikepdf.Object:
    """Take all that the first page draws into a form, and leave the page empty."""
    page = pdf.pages[0]
    whole = pdf.make_stream(
        page.Contents.read_bytes(),
        Type=Name.XObject,
        Subtype=Name.Form,
        BBox=[0, 0, *A6],
        Resources=page.obj.Resources,
        Group=Dictionary(S=Name.Transparency),
    )
    page.obj.Resources = Dictionary()
    page.obj.Contents = pdf.make_stream(b"")
    return whole
