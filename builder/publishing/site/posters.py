"""The posters of a site: one for the course, one for each lesson, and the cover of the book."""

from functools import partial

from builder.course.course import Course
from builder.publishing.bare import bare_settings
from builder.publishing.cards.outline import Outliner
from builder.publishing.pages.links import BOOK, COURSE_POSTER, poster_file
from builder.publishing.posters.poster import (
    TALL,
    WIDE,
    make_course_poster,
    make_lesson_poster,
)
from builder.publishing.posters.run import WantedPoster
from builder.work.digest import spell


def list_posters(course: Course, outliner: Outliner) -> dict[str, WantedPoster]:
    """Return every poster by the path of its picture; the book's cover has the book's own."""
    drawn = [(lesson.figure, lesson.drill.tempo) for lesson in course.lessons]
    figures = (figure for figure, _ in drawn if figure)
    tempos = (tempo for _, tempo in drawn if tempo)
    whole = spell(
        (bare_settings(course.settings), len(drawn), next(figures, None), next(tempos, None))
    )
    return {
        **{
            path: WantedPoster(
                f"{sheet.name}\n{whole}",
                partial(make_course_poster, course, sheet),
                course.settings.at("title"),
            )
            for path, sheet in ((COURSE_POSTER, WIDE), (BOOK, TALL))
        },
        **{
            poster_file(lesson): WantedPoster(
                f"lesson\n{outliner.outline(lesson)}",
                partial(make_lesson_poster, course, lesson),
                lesson.at("title"),
            )
            for lesson in course.lessons
        },
    }
