"""Drawings in the two engines that show them: the PDF writer and a browser."""

import io
from collections.abc import Iterator
from pathlib import Path

import pypdfium2
import pytest
from fontTools.ttLib import TTFont
from playwright.sync_api import Page, sync_playwright
from weasyprint import HTML
from weasyprint.text.fonts import FontConfiguration

from builder.course.course import Course
from builder.course.tempo import Tempo
from builder.drawing.course_map import draw_course_map
from builder.drawing.demand_chart import draw_demand_chart
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.machine.browser import find_browser
from builder.resources import find_templates

FONTS = find_templates() / "fonts"
WEIGHTS = {"Regular": 400, "Semibold": 600, "Bold": 700}
FACES = "".join(
    f"@font-face {{ font-family: 'Source Sans 3'; font-weight: {weight}; "
    f"src: url({(FONTS / f'SourceSans3-{face}.ttf').as_uri()}) }}"
    for face, weight in WEIGHTS.items()
)


def make_page(drawing: str) -> str:
    style = f"<style>{FACES} @page {{ size: A3 }} svg {{ max-width: 100%; height: auto }}</style>"
    return f"<!doctype html><html lang=en><title>t</title>{style}<body>{drawing}</body></html>"


def print_page(drawing: str) -> pypdfium2.PdfDocument:
    target = io.BytesIO()
    HTML(string=make_page(drawing)).write_pdf(
        target, font_config=FontConfiguration(), pdf_variant="pdf/ua-1"
    )
    return pypdfium2.PdfDocument(target.getvalue())


def show(page: Page, folder: Path, drawing: str) -> None:
    """Open a drawing in the browser and wait for its letters."""
    file = folder / "drawing.html"
    file.write_text(make_page(drawing), "utf-8")
    page.goto(file.as_uri())
    for weight in WEIGHTS.values():
        assert page.evaluate(
            f"document.fonts.load(\"{weight} 16px 'Source Sans 3'\").then(found => found.length)"
        )


def read_words(document: pypdfium2.PdfDocument) -> str:
    page = document[0].get_textpage()
    return " ".join(page.get_text_range().split())


@pytest.fixture(scope="module")
def page() -> Iterator[Page]:
    program = find_browser()
    if program is None:
        pytest.skip("no Chromium on this machine")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=program, args=["--no-sandbox"])
        yield browser.new_page()
        browser.close()


def test_printed_strips_keep_their_words_and_the_shipped_font() -> None:
    document = print_page(draw_tempo_strip(Tempo(4, 1, 6, 1), 40))
    words = read_words(document)
    assert all(label in words for label in ("in 4", "pause 1", "out 6"))
    names = {item.get_font().get_base_name() for item in _texts(document)}
    assert all("Source-Sans-3" in name for name in names), names


def _texts(document: pypdfium2.PdfDocument) -> Iterator[pypdfium2.PdfTextObj]:
    for item in document[0].get_objects(max_depth=6):
        if isinstance(item, pypdfium2.PdfTextObj):
            yield item


def test_a_printed_map_is_one_page_with_every_title(long_course: Course) -> None:
    document = print_page(draw_course_map(long_course, href=lambda name: name))
    words = read_words(document).replace(" ", "")
    assert len(document) == 1
    missing = [
        lesson.title for lesson in long_course.lessons if lesson.title.replace(" ", "") not in words
    ]
    assert missing == []


def test_a_printed_chart_is_one_page_with_every_title(long_course: Course) -> None:
    document = print_page(draw_demand_chart(long_course))
    words = read_words(document)
    assert len(document) == 1
    assert all(lesson.title in words for lesson in long_course.lessons)


def test_titles_stay_inside_their_stops_in_a_browser(
    page: Page, tmp_path: Path, long_course: Course
) -> None:
    show(page, tmp_path, draw_course_map(long_course, href=lambda name: name))
    outside = page.evaluate(
        """() => [...document.querySelectorAll('.stop')].filter(stop => {
            const box = stop.querySelector('rect').getBBox();
            return [...stop.querySelectorAll('text')].some(text => {
                const t = text.getBBox();
                return t.x < box.x || t.x + t.width > box.x + box.width
                    || t.y < box.y || t.y + t.height > box.y + box.height;
            });
        }).map(stop => stop.dataset.lesson)"""
    )
    assert outside == []


def test_the_keyboard_walks_the_map_in_teaching_order(
    page: Page, tmp_path: Path, long_course: Course
) -> None:
    show(page, tmp_path, draw_course_map(long_course, href=lambda name: name))
    reached = []
    for _ in long_course.lessons:
        page.keyboard.press("Tab")
        reached.append(page.evaluate("document.activeElement.dataset.lesson"))
    assert reached == list(long_course.teaching_order)


def test_a_browser_measures_words_no_wider_than_we_do(page: Page, tmp_path: Path) -> None:
    show(page, tmp_path, draw_tempo_strip(Tempo(4, 1, 4, 1)))
    width = page.evaluate("document.querySelectorAll('text')[1].getBBox().width")
    with TTFont(FONTS / "SourceSans3-Semibold.ttf") as font:
        names, metrics = font.getBestCmap(), font["hmtx"]
        told = sum(metrics[names[ord(sign)]][0] for sign in "pause 1") * 2.83 / 1000
    assert 0.9 * told < width <= told + 0.05
