"""The small course with its first strand in Spanish, as files to lay over it."""

from pathlib import Path

from builder.cli.translate_command import translate
from builder.reading.translation.kept import FOLDER

SPANISH = Path(__file__).parent / "small_course_es"
LANGUAGES = "languages: {es: {strands: [breath]}}\n"


def speak_spanish(root: Path, *, agree: bool = True) -> Path:
    """Lay the Spanish files over a copy of the small course, and agree that they fit."""
    for path in SPANISH.rglob("*.*"):
        target = root / path.relative_to(SPANISH)
        target.write_bytes(path.read_bytes())
    course = root / "content" / "course.yml"
    text = course.read_text(encoding="utf-8")
    course.write_text(text.replace("paper: a6\n", f"{LANGUAGES}paper: a6\n"), encoding="utf-8")
    if agree:
        translate("es", project=root, agree=True)
        assert (root / "content" / FOLDER).is_dir()
    return root


def change(path: Path, before: str, after: str) -> None:
    """Change a text of a file that must be there."""
    text = path.read_text(encoding="utf-8")
    assert before in text
    path.write_text(text.replace(before, after), encoding="utf-8")
