"""The reader of pages against Chromium: what it calls seen is seen there, and as large and clear.

The browser is the outside judge: its boxes, its computed sizes and colours, and what it finds
at the point where a word stands.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from builder.publishing.proof.safety.in_page import sight_in_page
from builder.publishing.proof.safety.sighting import Sighting
from builder.sums.contrast import contrast_ratio
from tests.browser_scripts.pages import SETTINGS, build_course, serve_folder
from tests.conftest import copy_small_course
from tests.publishing.proof.safety.hostile import (
    AWAY,
    COVERED,
    HIDDEN,
    HONEST,
    PALE,
    SMALL,
    WORDS,
    Case,
)

LOOK = (Path(__file__).parent / "look.js").read_text(encoding="utf-8").partition("\n")[2]
VIEWS = (
    (360, "screen", "light"),
    (650, "screen", "light"),
    (1280, "screen", "dark"),
    (360, "print", "light"),
    (1280, "print", "dark"),
)
BEYOND_BOXES = frozenset(
    {
        "all",
        "animation",
        "aria-hidden",
        "backwards",
        "base",
        "behind",
        "bidi",
        "block-filter",
        "block-low",
        "block-margin",
        "block-outline",
        "block-relative",
        "block-shadow",
        "block-sticky",
        "block-stroke",
        "block-text-shadow",
        "block-transform",
        "block-translate",
        "block-unknown",
        "border-radius",
        "broken-value",
        "cells-beside",
        "charset-of-sheet",
        "class-of-the-theme",
        "clip-path",
        "clip-path-of-article",
        "columns-of-grid",
        "corner",
        "corner-logical",
        "dark-canvas",
        "deep",
        "dialog-open",
        "drawer",
        "drawing-animated",
        "drawing-between",
        "drawing-let-out",
        "emphasis-marks",
        "field-between",
        "filter",
        "filter-blur",
        "first-letter",
        "first-line",
        "for-scripts",
        "formula",
        "frame-in-article",
        "gap-of-article",
        "gap-of-cells",
        "heavy-conditions",
        "heavy-nesting",
        "heavy-selector",
        "heavy-siblings",
        "heavy-value",
        "hidden",
        "import",
        "import-elsewhere",
        "import-of-itself",
        "inert",
        "late-encoding",
        "letters-drawn",
        "letters-exchanged",
        "letters-of-old",
        "line-clamp",
        "line-height",
        "list-words",
        "list-words-named",
        "list-words-type",
        "low-box",
        "many-steps",
        "marks-piled-up",
        "mask",
        "mask-image",
        "newer",
        "newer-outside",
        "no-doctype",
        "no-encoding",
        "other-words",
        "our-typeface",
        "overlay",
        "page",
        "picture-before",
        "picture-between",
        "picture-let-out",
        "pointer",
        "property",
        "quirks",
        "quotation-words",
        "rule-after-notice",
        "rule-grid",
        "rule-of-frame",
        "rule-on-hover",
        "shadow",
        "sheet-elsewhere",
        "sheet-missing",
        "shown-by-denied-attribute",
        "shown-by-denied-style",
        "shown-by-late-import",
        "shown-by-title",
        "shown-in-drawing",
        "shown-perhaps",
        "signs",
        "signs-first",
        "slanted",
        "strike",
        "struck",
        "struck-by-marks",
        "text-security",
        "transition",
        "transition-late",
        "turned",
        "turned-before",
        "turned-before-words",
        "typeface",
        "unknown-property",
        "unknown-pseudo",
        "video",
        "viewport",
        "wide-screens",
        "word-of-three",
        "word-spacing",
        "words-before",
        "words-between",
        "words-between-pictures",
        "words-by-counter",
        "words-in-marker",
    }
)
"""Pages whose harm boxes don't show: in its colours or letters, in what may come to be, or to some
readers only; and those on which the boxes of this small page happen not to meet."""
BEYOND_COLOURS = frozenset(
    {"ground-picture", "ground-of-article", "white-on-paper", "unknown-colour"}
)
"""Pages whose letters have a ground that its colour doesn't tell, or lose it in print."""
WORDS_OF = """selector => [...document.querySelectorAll(selector)].map((root) => {
  const copy = root.cloneNode(true);
  copy.querySelectorAll(".tl-notice__more").forEach((each) => each.remove());
  return copy.textContent;
})"""
NOTICES = "article > ul.tl-notices .tl-notice__text, article .tl-caution"


@dataclass(frozen=True, slots=True)
class Look:
    """What a browser makes of a notice, at its worst of all views."""

    is_seen: bool
    points: float
    contrast: float


def look_at(page: Page, selector: str) -> list[Look]:
    """Ask the browser, on phones and wide screens, light and dark, and on paper."""
    worst: list[Look] = []
    for width, medium, scheme in VIEWS:
        page.set_viewport_size({"width": width, "height": 800})
        page.emulate_media(media=medium, color_scheme=scheme, reduced_motion="reduce")
        page.evaluate(
            "name => document.body && document.body.hasAttribute('data-md-color-scheme') &&"
            " document.body.setAttribute('data-md-color-scheme', name)",
            {"light": "default", "dark": "slate"}[scheme],
        )
        looks = [read_look(each) for each in page.evaluate(LOOK, selector)]
        worst = [take_worst(*both) for both in zip(worst, looks, strict=True)] if worst else looks
    return worst


def take_worst(first: Look, second: Look) -> Look:
    return Look(
        first.is_seen and second.is_seen,
        min(first.points, second.points),
        min(first.contrast, second.contrast),
    )


def read_look(texts: list[Mapping[str, Any]]) -> Look:
    if not texts:
        return Look(False, 0, 1)
    return Look(
        all(text["isThere"] and text["isInside"] and text["isOnTop"] for text in texts),
        min(text["pixels"] for text in texts) * 0.75,
        min(find_contrast(text["colour"], text["grounds"]) for text in texts),
    )


Colour = tuple[float, float, float, float]


def find_contrast(colour: str, grounds: list[tuple[str, float, str]]) -> float:
    """Lay letters over each ground in turn, from the nearest, each as clear as its element is."""
    letters, behind = read_colour(colour), (0.0, 0.0, 0.0, 0.0)
    for ground, opacity, _picture in grounds:
        own = read_colour(ground)
        letters, behind = blend(letters, own), blend(behind, own)
        letters, behind = (*letters[:3], letters[3] * opacity), (*behind[:3], behind[3] * opacity)
    white = (255.0, 255.0, 255.0, 1.0)
    return contrast_ratio(write(blend(letters, white)), write(blend(behind, white)))


def blend(upper: Colour, lower: Colour) -> Colour:
    alpha = upper[3] + lower[3] * (1 - upper[3])
    share = upper[3] / alpha if alpha else 0.0
    red, green, blue = (
        u * share + v * (1 - share) for u, v in zip(upper[:3], lower[:3], strict=True)
    )
    return red, green, blue, alpha


def write(colour: Colour) -> str:
    return "#" + "".join(f"{round(part):02x}" for part in colour[:3])


def read_colour(text: str) -> Colour:
    numbers = [float(number) for number in re.findall(r"[\d.]+(?:e-?\d+)?", text)]
    scale = 255.0 if text.startswith("color(") else 1.0
    if len(numbers) < 3:
        return 0.0, 0.0, 0.0, 0.0  # of what isn't shown
    red, green, blue = (part * scale for part in numbers[:3])
    return red, green, blue, numbers[3] if len(numbers) > 3 else 1.0


@pytest.fixture(scope="module")
def page(browser: Browser) -> Iterator[Page]:
    page = browser.new_page(java_script_enabled=True)
    yield page
    page.close()


def sight(folder: Path, case: Case) -> Sighting:
    case.write(folder)
    return sight_in_page(lambda path: (folder / path).read_bytes(), "index.html", {"a": WORDS})["a"]


def look_at_case(page: Page, folder: Path, case: Case) -> Look:
    case.write(folder)
    page.goto((folder / "index.html").as_uri())
    looks = look_at(page, ".tl-notice__text")
    return looks[0] if looks else Look(False, 0, 1)


@pytest.mark.parametrize("name", HONEST)
def test_browser_agrees_on_honest_pages(page: Page, tmp_path: Path, name: str) -> None:
    found = sight(tmp_path, HONEST[name]).place
    look = look_at_case(page, tmp_path, HONEST[name])
    assert look.is_seen
    assert found is not None
    assert found.size_points == pytest.approx(look.points, abs=0.05)
    assert found.contrast == pytest.approx(look.contrast, abs=0.15)


@pytest.mark.parametrize("name", sorted({**HIDDEN, **AWAY, **COVERED}.keys() - BEYOND_BOXES))
def test_browser_sees_the_harm_of_hostile_pages(page: Page, tmp_path: Path, name: str) -> None:
    look = look_at_case(page, tmp_path, {**HIDDEN, **AWAY, **COVERED}[name])
    assert not look.is_seen


@pytest.mark.parametrize("name", sorted(SMALL.keys() - {"unknown-size"}))
def test_browser_finds_small_letters_small(page: Page, tmp_path: Path, name: str) -> None:
    assert look_at_case(page, tmp_path, SMALL[name]).points < 9


@pytest.mark.parametrize("name", sorted(PALE.keys() - BEYOND_COLOURS))
def test_browser_finds_pale_letters_pale(page: Page, tmp_path: Path, name: str) -> None:
    assert look_at_case(page, tmp_path, PALE[name]).contrast < 4.5


def test_browser_agrees_on_every_notice_of_a_built_site(
    page: Page, shelf: Path, tmp_path: Path
) -> None:
    site = build_course(shelf, copy_small_course(tmp_path / "project"), settings=SETTINGS)
    lessons = sorted(site.glob("lessons/*/*/index.html"))
    assert lessons
    for file in lessons:
        path = file.relative_to(site).as_posix()
        compare_page(page, site, path)


def compare_page(page: Page, site: Path, path: str) -> None:
    """Compare what the reader and the browser make of each notice of a lesson's page."""
    with serve_folder(site) as port:
        page.goto(f"http://127.0.0.1:{port}/{path}")
        said = page.evaluate(WORDS_OF, NOTICES)
        looks = look_at(page, NOTICES)
    wanted = {str(number): words for number, words in enumerate(said)}
    found = sight_in_page(lambda name: (site / name).read_bytes(), path, wanted)
    assert wanted
    for name, look in zip(wanted, looks, strict=True):
        place = found[name].place
        assert look.is_seen
        assert place is not None
        assert place.size_points == pytest.approx(look.points, abs=0.05)
        assert place.contrast == pytest.approx(look.contrast, abs=0.15)
