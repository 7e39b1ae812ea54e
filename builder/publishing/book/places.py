"""What the files of the book are called, so that one chapter can link to another."""

COVER = "cover.xhtml"
TITLE = "title.xhtml"
SAFETY = "safety.xhtml"
CONTENTS = "contents.xhtml"
GLOSSARY = "glossary.xhtml"
STYLE = "style.css"
FONT = "TempoleafSans-Semibold.woff2"
COVER_PICTURE = "cover.png"


def lesson_file(lesson_id: str) -> str:
    """Return the file of a lesson's chapter."""
    return f"lesson-{lesson_id}.xhtml"


def find_lesson(lesson_id: str) -> str | None:
    """Return where a lesson's chapter is; in a book all of them stand side by side."""
    return lesson_file(lesson_id)


def strand_file(strand_id: str) -> str:
    """Return the file of a strand's chapter."""
    return f"strand-{strand_id}.xhtml"
