"""The starter course in Spanish, as a visitor meets it who reads nothing else.

Every page in a browser with its pacer, its search and what its scripts write, every card and pack,
and the book: no English word stands there that isn't marked as English.
"""

import json
import re
import shutil
import zipfile
from collections.abc import Iterator
from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from playwright.sync_api import Browser, Page

from builder.machine.browser import find_browser
from builder.mkdocs_parts import Order
from builder.mkdocs_plugin import build_site
from builder.publishing.proof.read_back import find_missing_texts, join_readings, read_pdf
from builder.publishing.proof.written_page import read_written_page
from builder.reading.course_folder import read_course
from builder.resources import find_starter
from tests.browser_scripts.pages import note_faults, serve_folder, wait_until

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")
ENGLISH = frozenset(
    (
        *("the", "and", "of", "with", "your", "you", "this", "that", "from", "which", "when"),
        *("not", "are", "is", "it", "to", "for", "here", "there", "what", "how", "where", "was"),
        *("breath", "breathe", "breaths", "lesson", "lessons", "card", "cards", "set", "sets"),
        *("side", "sides", "rest", "level", "stop", "start", "easier", "harder", "ready", "by"),
        *("page", "pages", "seconds", "minutes", "caution", "cautions", "notice", "coach", "at"),
    )
)
"""Words of English that Spanish doesn't have, among them those that the tool says most."""
NAMES = ("American College of Sports Medicine",)
"""Names that have no Spanish form."""
SETTINGS = """\
site_name: An English name
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {papers: [a5]}]
"""
COLLECT = """() => {
  const found = [];
  const isSpanish = (element) => (element.closest("[lang]")?.lang || "es").startsWith("es");
  const walk = document.createTreeWalker(document.documentElement, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const parent = walk.currentNode.parentElement;
    if (!parent.closest("script, style, noscript, template, code") && isSpanish(parent))
      found.push(walk.currentNode.textContent);
  }
  for (const name of ["aria-label", "title", "alt", "placeholder", "content", "label"])
    for (const element of document.querySelectorAll(`[${name}]`))
      if (isSpanish(element) && !/^(og|twitter|theme|viewport|generator)/.test(
          element.getAttribute("property") || element.getAttribute("name") || "")
          && !element.hasAttribute("http-equiv"))
        found.push(element.getAttribute(name));
  return found;
}"""
"""Every text of a page and every attribute that somebody reads or hears."""


def find_english(texts: list[str]) -> list[str]:
    """Return the texts in which a word of English stands, addresses and names left out."""
    left_out = re.compile("|".join((r"\S+[./@]\S+", *NAMES)))
    return [
        text.strip()
        for text in texts
        if ENGLISH & set(re.findall(r"[a-z]+", left_out.sub(" ", text).lower()))
    ]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Path, str]]:
    """Build the Spanish part of the starter with cards, and serve it."""
    project = tmp_path_factory.mktemp("spanish")
    shutil.copytree(find_starter(), project / "content")
    (project / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    folder = project / "site" / "es"
    assert build_site(Order(project / "mkdocs.yml", is_strict=True, language="es"), folder) == ()
    with serve_folder(project / "site") as port:
        yield folder, f"http://127.0.0.1:{port}/es/"


def test_english_is_found_where_it_stands() -> None:
    assert find_english(["Respira a tu ritmo", "Breathe at your own pace"]) == [
        "Breathe at your own pace"
    ]
    assert find_english(["saltmarsh-studio.example/the/card", "hello@the.example"]) == []


def practise(page: Page) -> None:
    """Go through a lesson's pacer, and read it at each stand."""
    page.locator("[data-tl-open]").click()
    assert find_english(page.evaluate(COLLECT)) == []
    page.locator("[data-tl-begin]").click()
    page.locator(".tl-pacer__run").wait_for()
    assert find_english(page.evaluate(COLLECT)) == []
    words = json.loads(page.locator(".tl-pacer__words").text_content() or "")
    assert find_english([re.sub(r"\{\w+\}", "", text) for text in words.values()]) == []


def test_no_page_has_an_english_sentence(browser: Browser, site: tuple[Path, str]) -> None:
    folder, address = site
    page = browser.new_page(viewport={"width": 390, "height": 844}, locale="es-ES")
    faults = note_faults(page)
    paths = sorted(p.parent.relative_to(folder).as_posix() for p in folder.rglob("index.html"))
    assert len(paths) == 24
    found = {}
    for path in paths:
        if path == "proof":
            continue  # it names spots of pages by their ids
        page.goto(f"{address}{path}/" if path != "." else address)
        assert page.locator("html").get_attribute("lang") == "es"
        if page.locator("[data-tl-open]").count():
            practise(page)
        found[path] = find_english(page.evaluate(COLLECT))
    assert {path: texts for path, texts in found.items() if texts} == {}
    assert [fault for fault in faults if "404" not in fault] == []


def test_what_scripts_write_is_spanish(browser: Browser, site: tuple[Path, str]) -> None:
    page = browser.new_page(locale="es-ES")
    page.goto(f"{site[1]}lessons/breath/belly-breath/")
    page.evaluate('tempoleaf.practice.record("belly-breath", "ready", new Date(2026, 10, 2))')
    page.evaluate(
        'tempoleaf.practice.change((data) => { data.notes["belly-breath"] = "Tranquila"; })'
    )
    page.goto(f"{site[1]}my-practice/")
    said = page.locator("[data-tl-log]").text_content() or ""
    assert "2 de noviembre" in said
    assert find_english(page.evaluate(COLLECT)) == []
    page.goto(f"{site[1]}start-here/")
    page.locator('[name="first"][value="none"]').check()
    for _ in range(7):
        page.locator("[data-tl-on]").click()
        step = page.locator("[data-tl-step]:not([hidden]) input[type=radio]")
        step.first.check()
    page.locator("[data-tl-on]").click()
    page.locator("[data-tl-result-start]").wait_for()
    assert page.locator("[data-tl-start] li").count() == 2
    assert find_english(page.evaluate(COLLECT)) == []


def test_search_finds_spanish_words_in_any_form(browser: Browser, site: tuple[Path, str]) -> None:
    page = browser.new_page(viewport={"width": 390, "height": 844}, locale="es-ES")
    page.goto(site[1])
    page.locator(".md-header__button[for=__search]").click()
    page.get_by_role("textbox").press_sequentially("costilla")
    page.locator(".md-search-result__item").first.wait_for()
    wait_until(page, "document.querySelectorAll('.md-search-result__item').length > 2")
    assert find_english(page.evaluate(COLLECT)) == []


def test_cards_packs_and_charts_are_spanish(site: tuple[Path, str]) -> None:
    pdfs = sorted(site[0].rglob("*.pdf"))
    assert len(pdfs) == 12 + 3 + 2  # lessons, packs, wall charts
    for path in pdfs:
        text = join_readings(read_pdf(path.read_bytes()))
        assert find_english(text.split("\n")) == [], path.name
    card = join_readings(read_pdf((site[0] / "cards/belly-breath.pdf").read_bytes()))
    assert "Respiración en el vientre" in card
    assert "Dolor, mareo, hormigueo" in card


def test_the_book_is_spanish(site: tuple[Path, str]) -> None:
    with zipfile.ZipFile(site[0] / "course.epub") as book:
        chapters = [name for name in book.namelist() if name.endswith(".xhtml")]
        assert len(chapters) > 15
        for name in chapters:
            tree = ET.fromstring(book.read(name))  # noqa: S314  # our own file
            texts = list(list_texts(tree))
            assert find_english(texts) == [], name


def list_texts(element: ET.Element) -> Iterator[str]:
    """Yield the texts of a chapter that aren't marked as another language's."""
    tag = element.get("{http://www.w3.org/XML/1998/namespace}lang", "es")
    if not tag.startswith("es"):
        return
    yield element.text or ""
    for child in element:
        yield from list_texts(child)
        yield child.tail or ""


def test_every_notice_has_its_spanish_words_on_the_safety_page(site: tuple[Path, str]) -> None:
    course = read_course(find_starter().parent, find_starter().name).course
    assert course
    spanish = course.translations["es"]
    assert len(spanish.notices) == len(course.notices) == 23
    assert not {n.short for n in spanish.notices} & {n.short for n in course.notices}
    page = read_written_page(site[0], "safety/index.html")
    assert find_missing_texts(page.text, {n.id: n.short for n in spanish.notices}) == ()
