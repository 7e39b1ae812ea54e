"""Finished sheets: two readers find every word, on paper of its size and in type of its form."""

from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest
import zxingcpp
from markupsafe import Markup
from pypdf import PdfReader
from pypdfium2 import PdfDocument  # type: ignore[import-untyped]

from builder.errors import BuilderError
from builder.findings import Place
from builder.planning.home_days import Span
from builder.publishing.client_sheet.in_words import view_sheet
from builder.publishing.client_sheet.printing import print_sheet, replace_lacking_signs
from builder.publishing.client_sheet.view import Said, SheetForm
from builder.publishing.client_sheet.words import list_wanted_words
from builder.publishing.proof.read_back import fold_text, read_pdf
from builder.sums.paper import PAPERS
from tests.publishing.client_sheet.demo import DAY, order_sheet, print_demo, see


@pytest.mark.parametrize("person", ["C3", "C5", "C7", "C8"])
def test_a_second_reader_finds_every_caution_dose_and_stop_sign(person: str) -> None:
    text = "".join(page.extract_text() for page in PdfReader(BytesIO(print_demo(person).pdf)).pages)
    letters = fold_text(text)
    wanted = list_wanted_words(see(person))
    kinds = ("caution", "own caution", "notice", "dose", "stop sign", "title")
    looked_for = {name: words for name, words in wanted.items() if name.startswith(kinds)}
    assert len(looked_for) > 5
    assert [name for name, words in looked_for.items() if fold_text(words) not in letters] == []


@pytest.mark.parametrize("person", ["C3", "C5", "C7", "C8"])
def test_a_sheet_is_one_leaf_of_paper(person: str) -> None:
    assert print_demo(person).pages <= 2


def test_what_fits_on_one_page_in_type_of_nine_and_a_half_points_is_one_page() -> None:
    printed = print_demo("C1")
    assert len(see("C1").lessons) == len(see("C1").trends) == 2
    assert (printed.pages, printed.setting.points >= 9.5) == (1, True)


def test_a_first_page_is_not_left_a_third_empty_where_less_roomy_figures_fill_it() -> None:
    """Set with roomy figures, the second lesson of this sheet is on its second page."""
    printed = print_demo("C8")
    assert (printed.pages, printed.setting.is_tight) == (2, True)
    assert see("C8").lessons[1].version in read_pdf(printed.pdf)[0].text


@pytest.mark.parametrize("form", list(SheetForm))
def test_a_long_word_stays_on_the_paper(form: SheetForm) -> None:
    view = replace(see("C5"), name="Salzwiesenwegbewohnerinnenverein" * 4, goal="g" * 200)
    assert print_sheet(view, form).pages >= 1


@pytest.mark.parametrize(("form", "least"), [(SheetForm.REGULAR, 9), (SheetForm.LARGE, 18)])
def test_no_type_is_smaller_than_its_form_allows(form: SheetForm, least: float) -> None:
    """18 points: large print as the American Printing House for the Blind has it (from memory)."""
    pages = read_pdf(print_demo("C5", form).pdf)
    assert min(page.smallest_points for page in pages) >= least
    assert not any(page.has_words_outside for page in pages)


@pytest.mark.parametrize("form", list(SheetForm))
def test_many_days_of_many_weeks_stay_on_the_paper(form: SheetForm) -> None:
    order = order_sheet("C5")
    span = Span(DAY, 12)
    days = tuple(day for week in span.list_weeks() for day in week)
    lessons = tuple(replace(each, days=days) for each in order.plan.lessons)
    view = view_sheet(replace(order, plan=replace(order.plan, span=span, lessons=lessons)))
    assert print_sheet(view, form).pages >= 1


def test_its_paper_is_a4_or_letter() -> None:
    """ISO 216 and 8.5 by 11 inches."""
    view = see("C5")
    for paper, size in (("a4", (595.28, 841.89)), ("letter", (612, 792))):
        pdf = print_sheet(replace(view, paper=PAPERS[paper]), SheetForm.REGULAR).pdf
        page = read_pdf(pdf)[0]
        assert (page.width_points, page.height_points) == pytest.approx(size, abs=0.5)


def test_it_is_tagged_and_names_its_language_and_nobody() -> None:
    with pikepdf.open(BytesIO(print_demo("C8").pdf)) as pdf:
        assert pdf.Root.Lang == "es"
        assert pdf.Root.MarkInfo.Marked
        described = str(dict(pdf.docinfo)) + str(dict(pdf.open_metadata()))
    assert "Remedios" not in described


def test_its_codes_lead_to_the_lessons_pages() -> None:
    lessons = see("C5").lessons
    image = PdfDocument(print_demo("C5").pdf)[0].render(scale=3).to_pil()
    assert [found.text for found in zxingcpp.read_barcodes(image)] == [
        lesson.address for lesson in lessons
    ]
    assert lessons[0].address.endswith(f"#card={lessons[0].version}")


def test_the_same_sheet_is_the_same_to_the_byte() -> None:
    assert print_sheet(see("C5"), SheetForm.REGULAR).pdf == print_demo("C5").pdf


def test_words_that_get_lost_stop_it() -> None:
    hidden = Said(Markup('<span style="display: none">Never alone.</span>'), "en-GB")
    with pytest.raises(BuilderError, match=r"lacks the own caution 1|A113 pdf-part-empty"):
        print_sheet(replace(see("C5"), own_cautions=(hidden,)), SheetForm.REGULAR)


def test_words_that_the_typeface_lacks_stop_it() -> None:
    with pytest.raises(BuilderError, match="the typeface has no"):
        print_sheet(replace(see("C5"), retest="再び"), SheetForm.REGULAR)


@pytest.mark.parametrize(
    "name", ["Yūto Kazemori", "Tobiasz Wrześnicki", "Leïla Benmarzak", "Eoghan Mac Conshlé"]
)
def test_names_of_many_lands_can_be_printed(name: str) -> None:
    view, findings = replace_lacking_signs(replace(see("C5"), name=name), Place("people.csv"))
    assert (view.name, findings) == (name, ())


def test_a_name_without_letters_in_the_typeface_gives_way_to_the_id() -> None:
    view = replace(see("C5"), name="雄斗", goal="歩く")
    view, findings = replace_lacking_signs(view, Place("people.csv"))
    assert (view.name, view.goal) == ("C5", "")
    assert [str(finding).partition(":")[0] for finding in findings] == ["people.csv"] * 2


def test_what_an_author_writes_stays_words() -> None:
    view = replace(see("C5"), name="<b>Ada</b> & Co")
    assert "<b>Ada</b> & Co" in read_pdf(print_sheet(view, SheetForm.REGULAR).pdf)[0].text
