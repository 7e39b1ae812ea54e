"""Lessons that a page names by their ids."""

import re
from collections.abc import Iterable
from functools import partial
from re import Match

from builder.publishing.pages.links import Site, lesson_page, relative_source
from builder.publishing.pages.templates import escape_markdown
from builder.publishing.views.lesson_view import LessonName

_CODE = re.compile(r"(^```.*?^```|`[^`\n]*`)", re.MULTILINE | re.DOTALL)
_LESSON_NAME = re.compile(r"\[\[([^\[\]]+)\]\]")


def link_lesson_names(markdown: str, site: Site, page: str) -> str:
    """Turn ``[[lesson-id]]`` into Markdown links to lesson pages, code left alone."""
    parts = _CODE.split(markdown)
    return "".join(
        part if index % 2 else _LESSON_NAME.sub(partial(_link_lesson, site, page), part)
        for index, part in enumerate(parts)
    )


def _link_lesson(site: Site, page: str, match: Match[str]) -> str:
    lesson = site.course.by_id.get(match[1].strip())
    if lesson is None:
        return match[0]
    return f"[{escape_markdown(lesson.title)}]({relative_source(page, lesson_page(lesson))})"


def name_lessons(site: Site, page: str, ids: Iterable[str]) -> list[LessonName]:
    """Name lessons by id with the addresses of their pages."""
    titles = site.course.titles
    return [LessonName(name, titles[name], site.link_lesson(page, name)) for name in ids]
