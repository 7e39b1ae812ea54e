"""Cards by the loop that WeasyPrint's own first steps show, and by nothing of the tool.

"First Steps" of its documentation (version 70): a ``FontConfiguration``, ``HTML``, ``CSS``,
``write_pdf``. The standard that the PDFs keep is the cards' own, so that both sides write the same.

    python tests/bench/naive_cards.py HTML_FOLDER TARGET
"""

import sys
from pathlib import Path

from weasyprint import CSS, HTML
from weasyprint.text.fonts import FontConfiguration


def print_all(source: Path, target: Path) -> None:
    """Print each HTML file of a folder, one after the other."""
    target.mkdir(parents=True)
    for path in sorted(source.glob("*.html")):
        font_config = FontConfiguration()
        css = CSS(filename=source / "style.css", font_config=font_config)
        HTML(filename=path).write_pdf(
            target / f"{path.stem}.pdf",
            stylesheets=[css],
            font_config=font_config,
            pdf_variant="pdf/ua-1",
        )


if __name__ == "__main__":
    print_all(Path(sys.argv[1]), Path(sys.argv[2]))
