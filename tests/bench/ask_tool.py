"""The one script of these benchmarks that knows the tool from inside; it runs in its own process.

Two things can't be had from a command: a course's finished Markdown without its cards, and the
cards' HTML as it goes to the PDF engine. Nothing here is timed.

    python -m tests.bench.ask_tool plain|cards COURSE TARGET
"""

import sys
from pathlib import Path

from builder.course.audience import Audience
from builder.publishing.cards.face import CardFace, face_cards
from builder.publishing.cards.html import read_style, write_front
from builder.publishing.cards.pdf import open_press
from builder.publishing.cards.printing import fit_card
from builder.publishing.site.edition import make_edition
from builder.publishing.site.plain import write_plain
from builder.reading.course_folder import read_course
from builder.resources import find_templates
from builder.sums.paper import PAPERS


def save_plain(project: Path, target: Path) -> None:
    """Write what `tempoleaf build --plain` writes, with cards off."""
    edition = make_edition(read_course(project), "content", ())
    if edition.site is None:
        raise SystemExit(f'"{project}" is no sound course')
    target.mkdir()
    write_plain(edition.site, edition, project / "content", target)


def save_cards(project: Path, target: Path) -> None:
    """Write each client card's HTML at the size it is printed in, and the style sheet of all."""
    course = read_course(project).course
    if course is None:
        raise SystemExit(f'"{project}" is no sound course')
    paper = PAPERS[course.settings.paper]
    target.mkdir()
    fonts = (find_templates() / "fonts").as_uri()
    style = read_style(paper).replace("course:/fonts", fonts)
    (target / "style.css").write_text(style, encoding="utf-8")
    for face in face_cards(course, course.lessons, Audience.CLIENT, [paper])[paper.id]:
        (target / f"{face.lesson.id}.html").write_text(_write_card(face), encoding="utf-8")


def _write_card(face: CardFace) -> str:
    """Return a card's front in the largest type that fits, as it is printed."""
    return write_front(face, fit_card(face, open_press())[0].setting)


if __name__ == "__main__":
    _, word, project, target = sys.argv
    {"plain": save_plain, "cards": save_cards}[word](Path(project), Path(target))
