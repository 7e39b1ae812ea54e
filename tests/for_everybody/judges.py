"""Who judges a page: axe-core, what is cut off or slides, and where the focus is."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

AXE = Path(__file__).parents[1] / "browser_scripts" / "node_modules" / "axe-core" / "axe.min.js"
"""The set-up for tests installs it."""
TAGS = ("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice")
_RUN_AXE = """(tags) => axe.run({
  runOnly: { type: "tag", values: tags },
  rules: { "target-size": { enabled: true } },
  resultTypes: ["violations"],
  preload: false,
}).then((found) => found.violations.flatMap((rule) => rule.nodes.map(
  (node) => `${rule.id} ${node.target.join(" ")}: ${node.failureSummary}`)))"""

# What hides its overflow hides words, unless it is meant for ears only or shut.
_FIND_CUT_OFF = """() => {
  const shows = (element) => {
    const box = element.getBoundingClientRect();
    const seen = { opacityProperty: true, visibilityProperty: true };
    return box.width > 1 && box.height > 1 && element.checkVisibility(seen);
  };
  const cuts = (way, inner, outer) => ["hidden", "clip"].includes(way) && inner > outer + 1;
  return [...document.querySelectorAll("body *")].filter((element) => {
    const style = getComputedStyle(element);
    const own = [...element.childNodes].some((node) => node.nodeType === 3 && node.data.trim());
    return own && shows(element)
      && (cuts(style.overflowX, element.scrollWidth, element.clientWidth)
        || cuts(style.overflowY, element.scrollHeight, element.clientHeight));
  }).map((element) => `cut off: ${element.className} ${element.textContent.trim().slice(0, 60)}`);
}"""
_FIND_SLIDING = """() => {
  const { scrollWidth, clientWidth } = document.documentElement;
  return scrollWidth > clientWidth ? [`slides sideways: ${scrollWidth} of ${clientWidth}`] : [];
}"""
# Text as WCAG 2.2, 1.4.12 lets a person space it.
_SPACE_OUT = """() => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(`
    * { line-height: 1.5 !important; }
    * { letter-spacing: 0.12em !important; word-spacing: 0.16em !important; }
    p { margin-bottom: 2em !important; }`);
  document.adoptedStyleSheets = [sheet];
}"""
_LOOK_AT_FOCUS = """() => {
  const element = document.activeElement;
  if (!element || element === document.body) return null;
  const seen = element.matches(".md-option") ? element.nextElementSibling : element;
  const style = getComputedStyle(seen);
  const box = seen.getBoundingClientRect();
  const at = (x, y) => {
    const top = document.elementFromPoint(box.left + box.width * x, box.top + box.height * y);
    return top !== null && (seen.contains(top) || top.contains(seen));
  };
  return {
    id: element.outerHTML.slice(0, 120),
    name: axe.commons.text.accessibleText(element),
    in_article: element.closest("article") !== null,
    top: Math.round(box.top + scrollY),
    left: Math.round(box.left),
    is_marked: style.outlineStyle !== "none" && parseFloat(style.outlineWidth) >= 2,
    is_seen: at(0.5, 0.5) || at(0.1, 0.2) || at(0.9, 0.2) || at(0.1, 0.8) || at(0.9, 0.8),
  };
}"""


@dataclass(frozen=True)
class Focus:
    """Where the keyboard is."""

    id: str
    name: str
    in_article: bool
    top: int
    left: int
    is_marked: bool
    """Whether an outline shows where it is: WCAG 2.2, 2.4.7."""
    is_seen: bool
    """Whether any of it is not under something else: WCAG 2.2, 2.4.11."""


def load_axe(page: Page) -> None:
    page.evaluate(AXE.read_text("utf-8"))


def learn_names(page: Page) -> None:
    """Let axe read the names of a page as it stands, for looks at the focus."""
    load_axe(page)
    page.evaluate("axe.setup(document)")


def ask_axe(page: Page) -> list[str]:
    """Return what axe-core finds on a page as it stands."""
    load_axe(page)
    found: list[str] = page.evaluate(_RUN_AXE, TAGS)
    return found


def find_cut_off(page: Page) -> list[str]:
    """Return the words that their boxes cut off, and whether the page slides sideways."""
    cut: list[str] = page.evaluate(_FIND_CUT_OFF)
    sliding: list[str] = page.evaluate(_FIND_SLIDING)
    return [*cut, *sliding]


def space_out(page: Page) -> None:
    page.evaluate(_SPACE_OUT)


def look_at_focus(page: Page) -> Focus | None:
    """Return where the keyboard is, or nothing where it is nowhere; names must be learned."""
    found: dict[str, Any] | None = page.evaluate(_LOOK_AT_FOCUS)
    return Focus(**found) if found else None
