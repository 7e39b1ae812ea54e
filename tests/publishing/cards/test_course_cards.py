"""All cards of a course: files, cache, and what is held back."""

import pickle
import subprocess
import sys
from collections.abc import Callable
from concurrent.futures import BrokenExecutor, Executor, Future, ThreadPoolExecutor
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from builder.course.audience import Audience
from builder.course.course import Course
from builder.errors import BuilderError
from builder.publishing.cards.course_cards import CardOrder, make_cards
from builder.publishing.cards.worker import run_batch, run_contents, run_folios, run_packs
from builder.publishing.proof.read_back import read_pdf
from builder.reading.course_folder import read_course
from builder.work.store import ContentStore
from tests.conftest import SMALL_COURSE, WriteCourse

LESSONS = {"hand-on-belly", "wide-ribs", "plain-count", "long-out", "short-hold"}


class CountingExecutor(ThreadPoolExecutor):
    """Counts what it is given to do."""

    jobs = 0

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        self.jobs += 1
        return super().submit(fn, *args, **kwargs)


def list_files(folder: Path) -> dict[str, bytes]:
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*.pdf")
    }


@pytest.fixture
def pool() -> CountingExecutor:
    return CountingExecutor(1)


def test_cards_lie_where_the_site_links_to(
    small_course: Course, tmp_path: Path, pool: CountingExecutor
) -> None:
    order = CardOrder(("a6", "a4"), packs=("a6",), sheets=True)
    shelf = ContentStore(tmp_path / "cache")
    assert make_cards(small_course, tmp_path / "out", order, pool=pool, shelf=shelf) == ()
    assert set(list_files(tmp_path / "out")) == {
        *(f"{name}.pdf" for name in LESSONS),
        *(f"a4/{name}.pdf" for name in LESSONS),
        *("packs/breath.pdf", "packs/count.pdf", "packs/whole-course.pdf"),
        "sheets/to-cut.pdf",
    }


def test_nothing_is_printed_again_while_nothing_changes(
    small_course: Course, tmp_path: Path, pool: CountingExecutor
) -> None:
    order = CardOrder(("a6",), packs=("a6",))
    shelf = ContentStore(tmp_path / "cache")
    make_cards(small_course, tmp_path / "one", order, pool=pool, shelf=shelf)
    printed = pool.jobs
    make_cards(small_course, tmp_path / "two", order, pool=pool, shelf=shelf)
    assert pool.jobs == printed > 0
    assert list_files(tmp_path / "one") == list_files(tmp_path / "two")


def test_a_changed_notice_changes_the_cards_that_carry_it_and_no_other(
    small_course: Course, tmp_path: Path, pool: CountingExecutor
) -> None:
    notices = tuple(
        replace(notice, short="High blood pressure: leave out the hold.")
        if notice.id == "holding"
        else notice
        for notice in small_course.notices
    )
    shelf = ContentStore(tmp_path / "cache")
    for name, course in (("old", small_course), ("new", replace(small_course, notices=notices))):
        make_cards(course, tmp_path / name, CardOrder(("a6",)), pool=pool, shelf=shelf)
    old, new = list_files(tmp_path / "old"), list_files(tmp_path / "new")
    assert [name for name in old if old[name] != new[name]] == ["short-hold.pdf"]


def test_only_the_lessons_asked_for_are_printed(
    small_course: Course, tmp_path: Path, pool: Executor
) -> None:
    order = CardOrder(("a6",), lessons=("long-out",))
    make_cards(small_course, tmp_path / "out", order, pool=pool, shelf=ContentStore(tmp_path))
    assert set(list_files(tmp_path / "out")) == {"long-out.pdf"}


def test_a_card_that_does_not_fit_is_not_written_nor_is_what_it_belongs_to(
    write_course: WriteCourse, tmp_path: Path, pool: Executor
) -> None:
    path = "content/lessons/count/short-hold.md"
    text = (SMALL_COURSE / path).read_text(encoding="utf-8")
    long = text.replace("1. Breathe in", "1. " + "Breathe as you like. " * 150 + "Breathe in")
    course = read_course(write_course({path: long})).course
    assert course is not None
    order = CardOrder(("a6",), packs=("a6",), sheets=True)
    out = tmp_path / "out"
    faults = make_cards(course, out, order, pool=pool, shelf=ContentStore(tmp_path / "cache"))
    assert [fault.rule.id for fault in faults] == ["C101"]
    assert set(list_files(out)) == {f"{name}.pdf" for name in LESSONS - {"short-hold"}}


def test_client_cards_never_carry_coach_notes(
    small_course: Course, tmp_path: Path, pool: Executor
) -> None:
    shelf = ContentStore(tmp_path / "cache")
    for audience in (Audience.COACH, Audience.CLIENT):
        order = CardOrder(("a6",), audience, packs=("a6",))
        make_cards(small_course, tmp_path / audience, order, pool=pool, shelf=shelf)
    for name, content in list_files(tmp_path / Audience.CLIENT).items():
        text = "".join(page.text for page in read_pdf(content))
        assert "Coach notes" not in text, name
    coach = list_files(tmp_path / Audience.COACH)
    assert "Coach notes" in "".join(page.text for page in read_pdf(coach["short-hold.pdf"]))


class DyingExecutor(Executor):
    """Loses its workers."""

    def submit(self, *_job: Any, **_more: Any) -> Future[Any]:
        lost: Future[Any] = Future()
        lost.set_exception(BrokenExecutor("a process was ended"))
        return lost


def test_a_lost_worker_is_told_with_a_cure_and_nothing_is_written(
    small_course: Course, tmp_path: Path
) -> None:
    order, shelf = CardOrder(("a6",)), ContentStore(tmp_path / "cache")
    with pytest.raises(BuilderError, match="ended from outside; see that enough memory"):
        make_cards(small_course, tmp_path / "out", order, pool=DyingExecutor(), shelf=shelf)
    assert not (tmp_path / "out").exists()


def test_an_error_keeps_its_cure_on_the_way_out_of_a_worker() -> None:
    error = pickle.loads(pickle.dumps(BuilderError("no fonts", "install them")))  # noqa: S301
    assert (error.message, error.cure) == ("no fonts", "install them")


class RecordingExecutor(CountingExecutor):
    """Notes which cards, contents and page numbers it is given to print, and packs to bind."""

    def __init__(self) -> None:
        super().__init__(1)
        self.cards: list[str] = []
        self.contents: list[str] = []
        self.folios: list[int] = []
        self.packs: list[str] = []

    def submit(self, fn: Callable[..., Any], /, *args: Any, **kwargs: Any) -> Future[Any]:
        (argument,) = args
        if fn is run_packs:
            self.packs += [parts.pack.name for parts in argument]
        elif fn is run_contents:
            self.contents.append(argument[0].name)
        elif fn is run_folios:
            self.folios.append(argument[-1])
        elif fn is run_batch:
            self.cards += [f"{face.paper.id}/{face.lesson.id}" for face in argument]
        return super().submit(fn, *args, **kwargs)


def change_lesson(course: Course, name: str, **changes: Any) -> Course:
    lesson = replace(course.by_id[name], **changes)
    return replace(
        course, lessons=tuple(lesson if old.id == name else old for old in course.lessons)
    )


def test_a_changed_lesson_prints_its_own_cards_and_binds_its_own_packs(
    small_course: Course, tmp_path: Path
) -> None:
    order = CardOrder(("a6", "a5"), packs=("a6",))
    shelf = ContentStore(tmp_path / "cache")
    make_cards(small_course, tmp_path / "old", order, pool=RecordingExecutor(), shelf=shelf)
    words = replace(small_course.by_id["wide-ribs"].words, ready_when=("It feels easy",))
    changed = change_lesson(small_course, "wide-ribs", words=words)
    pool = RecordingExecutor()
    make_cards(changed, tmp_path / "new", order, pool=pool, shelf=shelf)
    assert pool.cards == ["a6/wide-ribs", "a5/wide-ribs"]
    assert pool.packs == ["whole-course", "breath"]
    assert pool.contents == pool.folios == []
    assert pool.jobs == 2  # one for the cards, one for both packs: a single worker is enough
    clean = ContentStore(tmp_path / "other cache")
    make_cards(changed, tmp_path / "clean", order, pool=RecordingExecutor(), shelf=clean)
    assert list_files(tmp_path / "new") == list_files(tmp_path / "clean")


def test_a_changed_title_prints_the_cards_that_may_name_it(
    small_course: Course, tmp_path: Path
) -> None:
    shelf, order = ContentStore(tmp_path / "cache"), CardOrder(("a6",))
    make_cards(small_course, tmp_path / "old", order, pool=RecordingExecutor(), shelf=shelf)
    pool = RecordingExecutor()
    changed = change_lesson(small_course, "short-hold", title="Short stop")
    make_cards(changed, tmp_path / "new", order, pool=pool, shelf=shelf)
    assert pool.cards == ["a6/plain-count", "a6/short-hold"]


def test_a_changed_title_prints_the_contents_that_name_it_and_no_page_numbers(
    small_course: Course, tmp_path: Path
) -> None:
    shelf, order = ContentStore(tmp_path / "cache"), CardOrder(("a6",), packs=("a6",))
    first, pool = RecordingExecutor(), RecordingExecutor()
    make_cards(small_course, tmp_path / "old", order, pool=first, shelf=shelf)
    assert (first.contents, first.folios) == (["whole-course", "count", "breath"], [1])
    changed = change_lesson(small_course, "short-hold", title="Short stop")
    make_cards(changed, tmp_path / "new", order, pool=pool, shelf=shelf)
    assert (pool.contents, pool.folios) == (["whole-course", "count"], [])
    clean = ContentStore(tmp_path / "other cache")
    make_cards(changed, tmp_path / "clean", order, pool=RecordingExecutor(), shelf=clean)
    assert list_files(tmp_path / "new") == list_files(tmp_path / "clean")


def test_a_fault_of_a_card_is_told_again_by_every_run(
    small_course: Course, tmp_path: Path, pool: Executor
) -> None:
    changed = change_lesson(small_course, "short-hold", title="Short \N{SNOWMAN}")
    shelf, order = ContentStore(tmp_path / "cache"), CardOrder(("a6",))
    first, second = (
        make_cards(changed, tmp_path / name, order, pool=pool, shelf=shelf) for name in "ab"
    )
    ids = [[fault.rule.id for fault in faults] for faults in (first, second)]
    assert ids == [["C106", "C106"]] * 2, "its own card, and that of a lesson that names it"


def test_a_broken_piece_of_the_cache_is_printed_again(small_course: Course, tmp_path: Path) -> None:
    shelf, order = ContentStore(tmp_path / "cache"), CardOrder(("a6",))
    make_cards(small_course, tmp_path / "a", order, pool=RecordingExecutor(), shelf=shelf)
    pieces = sorted(path for path in (tmp_path / "cache").rglob("*") if path.is_file())
    for piece in pieces[::2]:
        piece.write_bytes(piece.read_bytes()[:-1])
    make_cards(small_course, tmp_path / "b", order, pool=RecordingExecutor(), shelf=shelf)
    assert list_files(tmp_path / "a") == list_files(tmp_path / "b")


_UNCHANGED = """
import sys
from concurrent.futures import Executor
from pathlib import Path
from builder.publishing.cards.course_cards import CardOrder, make_cards
from builder.reading.course_folder import read_course
from builder.work.store import ContentStore
course = read_course(Path(sys.argv[1])).course
order = CardOrder(("a6",), packs=("a6",))
out, shelf = Path(sys.argv[2], "out"), ContentStore(Path(sys.argv[2], "cache"))
assert make_cards(course, out, order, pool=Executor(), shelf=shelf) == ()
print(*(name for name in ("weasyprint", "pikepdf", "fontTools") if name in sys.modules))
"""


def test_no_engine_is_loaded_while_nothing_changes(tmp_path: Path, pool: Executor) -> None:
    course = read_course(SMALL_COURSE).course
    assert course is not None
    order, shelf = CardOrder(("a6",), packs=("a6",)), ContentStore(tmp_path / "cache")
    make_cards(course, tmp_path / "one", order, pool=pool, shelf=shelf)
    said = subprocess.run(
        [sys.executable, "-c", _UNCHANGED, str(SMALL_COURSE), str(tmp_path)],
        capture_output=True,
        text=True,
        check=True,
    )
    assert said.stdout.split() == []
    assert list_files(tmp_path / "out") == list_files(tmp_path / "one")
