"""The coach's private folder of a class: everything for it, written as a whole or not at all."""

from dataclasses import dataclass
from pathlib import Path

from builder.publishing.class_screen.screen import write_class_screen
from builder.publishing.views.class_view import ClassView
from builder.sums.paper import choose_sheet
from builder.work.whole import replace_folder

CLASSES = Path("coach", "classes")
"""From the project's folder; never published."""
CARD = "card.pdf"
SCREEN = "screen.html"


@dataclass(frozen=True, slots=True)
class ClassFiles:
    """The files of a class that were written."""

    paths: tuple[Path, ...]
    has_figures: bool
    """Whether the card shows bodies; the screen always does."""


def write_class_files(view: ClassView, project: Path, paper: str) -> ClassFiles:
    """Write the files of a class into a folder named after it.

    ``paper`` is the id of the studio's cards. After a BuilderError what stood there still stands.
    """
    target = project / CLASSES / view.title
    screen = write_class_screen(view).encode("utf-8")
    pdf, has_figures = _print_card(view, paper)
    files = {CARD: pdf, SCREEN: screen}
    with replace_folder(target) as folder:
        for name, content in files.items():
            (folder / name).write_bytes(content)
    return ClassFiles(tuple(target / name for name in files), has_figures)


def _print_card(view: ClassView, paper: str) -> tuple[bytes, bool]:
    """Print the card, and tell whether it has figures; the PDF engine is loaded here only."""
    from builder.publishing.class_card.printing import (  # noqa: PLC0415  # loads in 0.4 s
        print_class_card,
    )

    card = print_class_card(view, choose_sheet(paper))
    return card.pdf, card.has_figures


def say_class_files(files: ClassFiles) -> str:
    """Say where the files of a class are, and what the card couldn't hold."""
    said = f"For the coach alone: {', '.join(map(str, files.paths))}, read back and complete."
    if files.has_figures:
        return said
    return (
        f"{said} The class is too large for figures on its card: the screen has them, and so has "
        "a card of fewer blocks or fewer people."
    )
