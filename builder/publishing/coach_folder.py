"""The coach's private folder of a class: everything for it, written as a whole or not at all."""

from pathlib import Path

from builder.errors import BuilderError
from builder.publishing.class_screen.screen import write_class_screen
from builder.publishing.views.class_view import ClassView
from builder.sums.paper import choose_sheet
from builder.work.whole import replace_folder

CLASSES = Path("coach", "classes")
"""From the project's folder; never published."""
CARD = "card.pdf"
SCREEN = "screen.html"


def write_class_files(view: ClassView, project: Path, paper: str) -> tuple[Path, ...]:
    """Write the files of a class into a folder named after it, and return their paths.

    ``paper`` is the id of the studio's cards. After a BuilderError what stood there still stands.
    """
    target = project / CLASSES / view.title
    screen = write_class_screen(view).encode("utf-8")
    files = {CARD: _print_card(view, paper), SCREEN: screen}
    with replace_folder(target) as folder:
        for name, content in files.items():
            (folder / name).write_bytes(content)
    return tuple(target / name for name in files)


def _print_card(view: ClassView, paper: str) -> bytes:
    """Print the card; the PDF engine is loaded here and not before."""
    try:
        from builder.publishing.class_card.printing import (  # noqa: PLC0415  # loads in 0.4 s
            print_class_card,
        )
    except OSError as error:
        raise BuilderError(
            "class cards can't be printed: a system library of the PDF engine is missing",
            "see which one with: tempoleaf doctor",
        ) from error
    return print_class_card(view, choose_sheet(paper))
