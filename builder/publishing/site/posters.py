"""The posters of a site: one for the course, one for each lesson, and the cover of the book."""

from builder.course.course import Course
from builder.publishing.pages.links import BOOK, COURSE_POSTER, poster_file
from builder.publishing.posters.poster import (
    TALL,
    Poster,
    make_course_poster,
    make_lesson_poster,
)


def list_posters(course: Course) -> dict[str, Poster]:
    """Return every poster by the path of its picture; the book's cover has the book's own."""
    lessons = {poster_file(lesson): make_lesson_poster(course, lesson) for lesson in course.lessons}
    course_poster = {COURSE_POSTER: make_course_poster(course)}
    return {**course_poster, **lessons, BOOK: make_course_poster(course, TALL)}
