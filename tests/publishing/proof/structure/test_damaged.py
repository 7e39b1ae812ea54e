"""Files that something damaged anywhere: each is looked at to its end, whatever stands in it."""

import random
from io import BytesIO

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, String

from builder.publishing.proof.structure.check import Wanted, find_structure_faults
from tests.publishing.proof.structure.conftest import Taken

ODD = [None, 7, -1, True, Name.X, String("x"), Array([]), Array([1, 2]), Dictionary(), Name.P]


def damage(pdf: pikepdf.Pdf, chance: random.Random) -> None:
    """Put something odd in place of a part of some object, or take it out."""
    holders = [each for each in pdf.objects if isinstance(each, Dictionary | pikepdf.Stream)]
    holder = chance.choice(holders)
    names = [name for name in holder.keys() if name not in ("/Length", "/Filter")]  # noqa: SIM118
    if not names:
        return
    name, value = chance.choice(names), chance.choice(ODD)
    if value is None:
        del holder[name]
    else:
        holder[name] = value


@pytest.mark.parametrize("seed", range(150))
def test_a_damaged_file_is_told_or_sound_and_never_a_crash(taken: Taken, seed: int) -> None:
    chance, target = random.Random(seed), BytesIO()  # noqa: S311  # a seed per case
    with pikepdf.open(BytesIO(taken.content)) as pdf:
        for _ in range(3):
            damage(pdf, chance)
        try:
            pdf.save(target)
        except (RuntimeError, ValueError, pikepdf.PdfError):
            return  # what can't be written can't be handed in
    wanted = Wanted(taken.source, is_archival=True)
    assert isinstance(find_structure_faults(target.getvalue(), wanted), tuple)


@pytest.mark.parametrize("seed", range(150))
def test_damaged_bytes_are_told_or_sound_and_never_a_crash(taken: Taken, seed: int) -> None:
    chance, content = random.Random(seed), bytearray(taken.content)  # noqa: S311
    for _ in range(8):
        content[chance.randrange(len(content))] = chance.randrange(256)
    find_structure_faults(bytes(content), Wanted(taken.source, is_archival=True))


def test_a_tree_that_runs_in_a_circle_comes_to_an_end(taken: Taken) -> None:
    def tie(pdf: pikepdf.Pdf) -> None:
        body = pdf.Root.StructTreeRoot.K[0]
        body.K.append(body)

    assert "A103 a part stands in the tree twice, or too deep" in taken.find(tie)


def test_a_tree_that_is_very_deep_comes_to_an_end(taken: Taken) -> None:
    def dig(pdf: pikepdf.Pdf) -> None:
        part = pdf.Root.StructTreeRoot.K[0]
        for _ in range(400):
            part.K = Array([pdf.make_indirect(Dictionary(S=Name.Div, P=part, K=Array([])))])
            part = part.K[0]

    assert "A103 a part stands in the tree twice, or too deep" in taken.find(dig)


def test_a_form_that_draws_itself_comes_to_an_end(taken: Taken) -> None:
    def loop(pdf: pikepdf.Pdf) -> None:
        form = pdf.make_stream(b"/X Do", Dictionary(Type=Name.XObject, Subtype=Name.Form))
        form.BBox = Array([0, 0, 9, 9])
        form.Resources = Dictionary(XObject=Dictionary(X=form))
        page = pdf.pages[0]
        page.obj.Resources.XObject.X = form
        page.contents_add(b"/X Do")

    assert "A103 a picture on page 1 has no mark" in taken.find(loop)
