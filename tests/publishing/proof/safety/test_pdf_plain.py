"""What programs show or print each in its own way, laid over or around a caution."""

from io import BytesIO
from typing import Any

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name

from builder.publishing.proof.safety.sighting import Box, Lack
from tests.publishing.proof.safety.pdf_edits import (
    A6,
    Change,
    add_resource,
    change,
    cover_with_note,
    draw,
    insert,
    put_aside,
    put_on_layer,
    rectangle,
    sight,
)

INK = Dictionary(FunctionType=2, Domain=[0, 1], C0=[0, 0, 0, 0], C1=[0, 0, 0, 1], N=1)
ACTION = Dictionary(S=Name.JavaScript, JS="hide()")
DOT = {"Subtype": Name.Image, "Width": 1, "Height": 1, "BitsPerComponent": 8}


def give(part: str, **entries: Any) -> Change:
    """Give the page or the file as a whole some entries."""

    def edit(pdf: pikepdf.Pdf) -> None:
        holder = pdf.Root if part == "file" else pdf.pages[0].obj
        for name, value in entries.items():
            holder[f"/{name}"] = value

    return edit


def set_state(box: Box, **entries: Any) -> Change:
    """Set the words in some state of the graphics."""

    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/ExtGState", "/Odd", Dictionary(**entries))
        insert(box, "q /Odd gs", "Q")(pdf)

    return edit


def set_colour(box: Box, space: Any, name: str = "/Odd", ink: str = "/Odd cs 0.02 scn") -> Change:
    """Set the words in a colour of some space."""

    def edit(pdf: pikepdf.Pdf) -> None:
        add_resource(pdf, "/ColorSpace", name, space)
        insert(box, ink, "0 g")(pdf)

    return edit


def draw_part(box: Box, kind: str, **entries: Any) -> Change:
    """Draw something clear over the words that isn't only what it shows."""
    left, bottom, width, height = rectangle(box).split()[:4]

    def edit(pdf: pikepdf.Pdf) -> None:
        clear = pdf.make_stream(b"\0", ColorSpace=Name.DeviceGray, **DOT)
        look = {**DOT, "SMask": clear} if kind == "Image" else {"BBox": [0, 0, 1, 1]}
        entry = {**look, "Subtype": Name(f"/{kind}"), **entries}
        part = pdf.make_stream(b"\xff" if kind == "Image" else b"", **entry)
        if kind == "Image":
            part.ColorSpace = Name.DeviceGray
        add_resource(pdf, "/XObject", "/Part", part)
        draw(f"{width} 0 0 {height} {left} {bottom} cm /Part Do")(pdf)

    return edit


def knock_out(box: Box) -> Change:
    """Lay next to nothing over words, in a group where what comes later takes the place of all."""

    def edit(pdf: pikepdf.Pdf) -> None:
        whole = put_aside(pdf)
        whole.Group = Dictionary(S=Name.Transparency, K=True)
        whole.write(whole.read_bytes() + f"\nq /Thin gs 1 g {rectangle(box)} f Q".encode())
        whole.Resources.ExtGState = Dictionary(Thin=Dictionary(ca=0.004))
        add_resource(pdf, "/XObject", "/Whole", whole)
        pdf.pages[0].obj.Contents = pdf.make_stream(b"/Whole Do")

    return edit


def use_layer(box: Box, use: str, **usage: Any) -> Change:
    """Put words on a layer that is shown to some, or at some sizes."""

    def edit(pdf: pikepdf.Pdf) -> None:
        put_on_layer(box, is_on=True, Usage=Dictionary({f"/{use}": Dictionary(**usage)}))(pdf)
        for event in pdf.Root.OCProperties.D.AS:
            event.Category = Array([Name(f"/{use}")])

    return edit


def turn_layer_off(box: Box) -> Change:
    def edit(pdf: pikepdf.Pdf) -> None:
        put_on_layer(box, is_on=True)(pdf)
        layer = pdf.Root.OCProperties.OCGs[0]
        pdf.Root.OpenAction = Dictionary(S=Name.SetOCGState, State=[Name.OFF, layer])

    return edit


STRANGE = {
    "an action when it is opened": lambda _: give("file", OpenAction=ACTION),
    "an action of the page": lambda _: give("page", AA=Dictionary(O=ACTION)),
    "scripts": lambda _: give("file", Names=Dictionary(JavaScript=Dictionary(Names=[]))),
    "other files instead": lambda _: give("file", Collection=Dictionary(View=Name.T)),
    "a form to fill in": lambda _: give("file", AcroForm=Dictionary(NeedAppearances=True)),
    "another part printed": lambda _: give(
        "file", ViewerPreferences=Dictionary(PrintArea=Name.ArtBox)
    ),
    "shown for a moment": lambda _: give("page", Dur=0.01),
    "slanted": lambda _: give("page", Rotate=45),
    "a layer for some sizes": lambda box: use_layer(box, "Zoom", min=20),
    "a layer for some languages": lambda box: use_layer(box, "Language", Lang="fr"),
    "a layer that an action turns off": turn_layer_off,
    "white ink that black shines through": lambda box: set_state(box, op=True, OPM=1),
    "another strength of ink": lambda box: set_state(box, TR=Name.Identity),
    "a group that knocks out": knock_out,
    "ink that no printer has": lambda box: set_colour(
        box, Array([Name.Separation, Name.Varnish, Name.DeviceCMYK, INK])
    ),
    "a colour of its own strength": lambda box: set_colour(
        box, Array([Name.CalGray, Dictionary(WhitePoint=[0.95, 1, 1.09], Gamma=0.01)])
    ),
    "another black": lambda box: set_colour(
        box, Array([Name.CalGray, Dictionary(WhitePoint=[1, 1, 1])]), "/DefaultGray", "0 g"
    ),
    "another picture in print": lambda box: draw_part(box, "Image", Alternates=Array([])),
    "a page of another file": lambda box: draw_part(box, "Form", Ref=Dictionary(F="other.pdf")),
    "orders to a printer": lambda box: draw_part(box, "PS"),
}


@pytest.mark.parametrize("name", STRANGE)
def test_words_that_others_may_see_otherwise_are_hidden(card: bytes, box: Box, name: str) -> None:
    assert sight(change(card, STRANGE[name](box))).lack is Lack.HIDDEN


NOTES = {
    "a wide line around a link": {"Subtype": Name.Link, "Border": Array([0, 0, 60])},
    "a wide line of a link's style": {"Subtype": Name.Link, "BS": Dictionary(W=60)},
    "a window that stands open": {"Subtype": Name.Popup, "Open": True},
    "a player": {"Subtype": Name.Screen, "has_look": True},
    "a film": {"Subtype": Name.Movie, "has_look": True},
    "a note that opens its window": {"Subtype": Name.Text, "Open": True, "has_look": True},
    "a note that keeps its size": {"F": 12, "has_look": True},
}


@pytest.mark.parametrize("name", NOTES)
def test_notes_that_each_program_draws_in_its_way_cover(card: bytes, box: Box, name: str) -> None:
    def clear(pdf: pikepdf.Pdf) -> None:
        cover_with_note(box, **{"has_look": False, **NOTES[name]})(pdf)
        note = pdf.pages[0].obj.Annots[0]
        if "/AP" in note:
            note.AP = Dictionary(N=pdf.make_stream(b"", Subtype=Name.Form, BBox=[0, 0, 1, 1]))

    assert sight(change(card, clear)).lack is Lack.COVERED


@pytest.mark.parametrize("entries", [{}, {"Border": Array([0, 0, 0])}, {"BS": Dictionary(W=0)}])
def test_a_link_with_a_thin_line_or_none_covers_nothing(
    card: bytes, box: Box, entries: dict[str, Any]
) -> None:
    edit = cover_with_note(box, has_look=False, Subtype=Name.Link, **entries)
    assert sight(change(card, edit)).lack is None


def test_a_card_that_nobody_may_print_is_hidden(card: bytes) -> None:
    locked = BytesIO()
    with pikepdf.open(BytesIO(card)) as pdf:
        denied = pikepdf.Permissions(print_highres=False, print_lowres=False)
        pdf.save(locked, encryption=pikepdf.Encryption(owner="coach", user="", allow=denied))
    assert sight(locked.getvalue()).lack is Lack.HIDDEN


def test_words_on_a_page_that_no_sheet_holds_are_small(card: bytes) -> None:
    def grow(pdf: pikepdf.Pdf) -> None:
        pdf.pages[0].obj.MediaBox = Array([0, 0, 4 * A6[0], 4 * A6[1]])
        for box in ("/TrimBox", "/BleedBox"):
            del pdf.pages[0].obj[box]

    assert sight(change(card, grow)).lack is Lack.SMALL
