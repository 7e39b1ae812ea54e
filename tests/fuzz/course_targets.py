"""Files of a course under trial: lessons, notices, course file, tables, pages."""

import json
import re
from collections.abc import Callable
from dataclasses import replace
from functools import cache

from builder.checks.excerpt import take_excerpt, take_frame
from builder.checks.registry import CHECKS
from builder.course.lesson import Lesson
from builder.findings import Finding
from builder.publishing.cards.ink import take_ink
from builder.publishing.pages.drawn_figure import FigureOrder, draw_figure
from builder.publishing.views.inline import render_inline
from builder.reading.course_file import make_frame
from builder.reading.evidence import name_for_placement
from builder.reading.known import HeaderCheck
from builder.reading.lesson_file import read_lesson
from builder.reading.notice_file import read_notice
from builder.reading.opened_files import OpenedFiles
from builder.reading.pages import read_page_text
from builder.reading.placement_file import read_placement
from builder.reading.references import find_foreign_parts, find_names, find_wrong_references
from builder.reading.releases_file import read_ledger
from builder.reading.schema import CourseHeader
from builder.reading.validation import read_validated
from builder.work.plain import find_maker, make_plain
from tests.fuzz.desk import TODAY, give_course, give_frame, lay, open_desk, read_files
from tests.fuzz.kinds import Answer, Target, count_lines

_LESSON = "content/lessons/breath/tried-here.md"
_STRAND = re.compile(rb"^strand: .*$", re.MULTILINE)
_TEMPO = re.compile(rb"^tempo: (.*)$", re.MULTILINE)
_DOSE = re.compile(rb"^dose: (.*)$", re.MULTILINE)
_FIGURE = re.compile(rb"^figure: (.*(?:\n +.*)*)$", re.MULTILINE)
HEADER_WORDS = (
    *("title", "strand", "level", "position", "tempo", "dose", "effort", "range", "builds_on"),
    *("props", "moving", "traits", "measures", "ready_when", "stop_if", "cues", "inhale", "exhale"),
    *("watch_for", "figure", "reviewed", "by", "on", "allow", "waive", "reason", "was", "at_once"),
    *("sets", "breaths", "rest", "sides", "minutes", "each", "alternate", "natural", "pause"),
    *("supine", "mat", "trunk", "bracing", "breath", "ladder", "easier", "harder", "id", "B101"),
)
FIGURE_WORDS = (
    *("view", "pose", "hands", "breath", "inhale", "exhale", "start", "free", "press", "props"),
    *("move_arrows", "spine", "tuck", "arms", "legs", "left_arm", "right_leg", "lie", "above"),
    *("side", "supine", "sides", "unseen", "ribs", "navel", "left", "right", "ball", "wall"),
)


def _open(name: str, data: bytes) -> tuple[OpenedFiles, str, str | None]:
    """Read a file of the desk as a course's reader does."""
    files = OpenedFiles(open_desk(), [])
    return (files, *files.read(lay(name, data)))


def _answer(data: bytes, findings: list[Finding], value: object) -> Answer:
    return Answer(value, tuple(findings), count_lines(data))


def read_lesson_bytes(data: bytes) -> Answer:
    """Read a lesson as a build does."""
    files, name, text = _open(_LESSON, data)
    file = files.split(name, text)
    if file is None or text is None:
        return _answer(data, files.findings, None)
    frame, lessons = give_frame(), give_course().by_id
    lesson, findings = read_lesson(file, frame.vocabulary, frame.traits, TODAY)
    findings += (*find_wrong_references(text, name, lessons), *files.findings)
    find_names(text)
    if lesson is None:
        return _answer(data, findings, None)
    return Answer(
        lesson,
        tuple(findings),
        count_lines(data),
        lambda: find_maker(Lesson)(json.loads(json.dumps(make_plain(lesson)))),
        lesson,
    )


def check_lesson_bytes(data: bytes) -> Answer:
    """Look at a sound lesson with each check of single lessons."""
    answer = read_lesson_bytes(data)
    if not isinstance(answer.value, Lesson):
        return answer
    course = give_course()
    excerpt = take_excerpt(take_frame(course), course, answer.value)
    found = [found for check in CHECKS if check.by_lesson for found in check.find(excerpt)]
    return replace(answer, findings=(*answer.findings, *found), again=None)


@cache
def list_lessons() -> tuple[bytes, ...]:
    """Return every lesson, all in one strand, so that a file of one name can be any of them."""
    found = read_files("content/lessons/*/*.md", "tests/*_course/content/lessons/*/*.md")
    return tuple(_STRAND.sub(b"strand: breath", data) for data in found)


def _list_values(pattern: re.Pattern[bytes]) -> tuple[bytes, ...]:
    found = (pattern.search(data) for data in list_lessons())
    return tuple(dict.fromkeys(each[1] for each in found if each))


def _put_into_lesson(
    pattern: re.Pattern[bytes], data: bytes, read: Callable[[bytes], Answer] = read_lesson_bytes
) -> Answer:
    """Read a lesson whose value under one key is the file under trial."""
    key = pattern.pattern.removeprefix(b"^").partition(b":")[0]
    whole = next(each for each in list_lessons() if pattern.search(each))
    return read(pattern.sub(lambda _: key + b": " + data, whole, count=1))


def read_dose_bytes(data: bytes) -> Answer:
    """Read a lesson with this dose."""
    return _put_into_lesson(_DOSE, data)


def read_figure_bytes(data: bytes) -> Answer:
    """Read and check a lesson with this figure."""
    return _put_into_lesson(_FIGURE, data, check_lesson_bytes)


def draw_figure_bytes(data: bytes) -> Answer:
    """Draw a sound figure as pages and cards have it; what is drawn must be sound SVG."""
    answer = _put_into_lesson(_FIGURE, data)
    figure = answer.value.figure if isinstance(answer.value, Lesson) else None
    if figure is None:
        return answer
    drawn = draw_figure(FigureOrder(figure, "en-GB"))
    for svg in (drawn.pair, drawn.moving):
        take_ink(svg.encode(), "a")
    frames = json.loads(drawn.frames)
    return replace(answer, value=drawn, again=lambda: bool(frames), expected=True)


def read_tempo_header(data: bytes) -> Answer:
    """Read a lesson with this tempo."""
    return _put_into_lesson(_TEMPO, data)


def read_notice_bytes(data: bytes) -> Answer:
    """Read a notice."""
    files, name, text = _open("content/notices/tried-here.md", data)
    file = files.split(name, text)
    if file is None or text is None:
        return _answer(data, files.findings, None)
    frame = give_frame()
    notice, findings = read_notice(file, frame.traits, frame.vocabulary, TODAY)
    findings += (*find_foreign_parts(text, name), *files.findings)
    return _answer(data, findings, notice)


def read_course_bytes(data: bytes) -> Answer:
    """Read a course file."""
    files = OpenedFiles(open_desk(), [])
    name, text = files.read_extra(lay("content/course.yml", data))
    if text is None:
        return _answer(data, files.findings, None)
    tree, header, findings = read_validated(text, name, CourseHeader)
    if tree is None or header is None:
        return _answer(data, findings, None)
    check = HeaderCheck(tree, name, TODAY)
    frame = make_frame(check, header)
    return _answer(data, findings + check.findings, frame)


def read_placement_bytes(data: bytes) -> Answer:
    """Read a table of where people start."""
    files = OpenedFiles(open_desk(), [])
    name, text = files.read_extra(lay("content/placement.yml", data))
    if text is None:
        return _answer(data, files.findings, None)
    frame, lessons = give_frame(), give_course().lessons
    names = name_for_placement(frame.vocabulary, lessons, (), frame.traits)
    table, findings = read_placement(text, name, names, TODAY)
    return _answer(data, findings, table)


def read_ledger_bytes(data: bytes) -> Answer:
    """Read a ledger of releases."""
    files = OpenedFiles(open_desk(), [])
    name, text = files.read_extra(lay("content/releases.yml", data))
    if text is None:
        return _answer(data, files.findings, None)
    ledger, findings = read_ledger(text, name, TODAY)
    return _answer(data, findings, ledger)


def read_page_bytes(data: bytes) -> Answer:
    """Read an ordinary page, what it points to, and each of its lines as inline Markdown."""
    files = OpenedFiles(open_desk(), [])
    name, text = files.read_extra(lay("content/glossary.md", data))
    if text is None:
        return _answer(data, files.findings, None)
    titles = give_course().titles
    page, findings = read_page_text(text, name, "glossary.md")
    findings += (*find_foreign_parts(text, name), *find_wrong_references(text, name, titles))
    shown = [str(render_inline(line, titles, str)) for line in text.split("\n")[:50]]
    return _answer(data, findings, (page, shown))


COURSE_TARGETS = (
    Target("lesson", read_lesson_bytes, list_lessons, HEADER_WORDS),
    Target("checked-lesson", check_lesson_bytes, list_lessons, HEADER_WORDS),
    Target("tempo-header", read_tempo_header, lambda: _list_values(_TEMPO), HEADER_WORDS),
    Target("dose", read_dose_bytes, lambda: _list_values(_DOSE), HEADER_WORDS),
    Target("figure", read_figure_bytes, lambda: _list_values(_FIGURE), FIGURE_WORDS),
    Target("drawn-figure", draw_figure_bytes, lambda: _list_values(_FIGURE), FIGURE_WORDS),
    Target(
        "notice",
        read_notice_bytes,
        lambda: read_files("content/notices/*.md", "tests/small_course/content/notices/*.md"),
        (
            "everywhere",
            "action",
            "adapt",
            "instead",
            "conditions",
            "short",
            "sources",
            *HEADER_WORDS,
        ),
    ),
    Target(
        "course-file",
        read_course_bytes,
        lambda: read_files("content/course.yml", "tests/*_course*/content/course*.yml"),
        ("limits", "strands", "positions", "families", "props", "efforts", "met", "languages"),
    ),
    Target(
        "placement",
        read_placement_bytes,
        lambda: read_files("content/placement*.yml"),
        ("questions", "start", "ways", "when", "under", "least", "timed", "answers", "evidence"),
    ),
    Target(
        "releases",
        read_ledger_bytes,
        lambda: read_files("content/releases*.yml"),
        ("lesson", "card", "code", "on", "why", "client", "coach"),
    ),
    Target(
        "page",
        read_page_bytes,
        lambda: read_files("content/*.md", "tests/small_course/content/*.md"),
        ("[[all-round]]", "![a](b.png)", "[a]: http://x", "](<", "javascript:", "# ", "> ", "1. "),
    ),
)
