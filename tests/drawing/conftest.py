"""Courses for drawings: made from short tables, among them a long one with ten strands."""

import re
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from types import MappingProxyType

import pytest

from builder.course.course import Colours, Course, Settings, Studio
from builder.course.dose import Dose
from builder.course.lesson import Drill, Lesson, Words
from builder.course.limits import Limits
from builder.course.tempo import Tempo
from builder.course.vocabulary import Effort, Position, Strand, Vocabulary

Table = Mapping[str, Sequence[str]]
"""Strand title to rows of ``level id before before``."""

FOUR_LESSONS: Table = MappingProxyType(
    {
        "Where the breath goes": ("1 belly-breath", "2 side-rib-breath belly-breath"),
        "Tempo": ("1 even-count belly-breath", "2 long-exhale even-count side-rib-breath"),
    }
)

LONG_COURSE: Table = MappingProxyType(
    {
        "First checks": (
            "1 ready-to-start",
            "2 hands-check-sitting ready-to-start",
            "2 hands-check-lying ready-to-start",
            "3 comfortable-hold hands-check-sitting hands-check-lying",
            "4 rib-sides-check comfortable-hold",
        ),
        "Where the breath goes": (
            "1 belly-breath hands-check-lying",
            "2 side-rib-breath belly-breath",
            "3 weak-side-breath side-rib-breath rib-sides-check",
            "3 back-rib-breath side-rib-breath",
            "4 all-round-breath back-rib-breath",
            "5 belly-then-ribs all-round-breath",
            "6 full-exhale belly-then-ribs",
        ),
        "Exhale and brace": (
            "1 tail-tuck belly-breath",
            "2 deep-belly-feel tail-tuck",
            "3 tuck-and-all-round deep-belly-feel all-round-breath",
            "4 brace-and-breathe tuck-and-all-round",
        ),
        "Tempo": (
            "1 even-count belly-breath",
            "2 long-exhale even-count",
            "2 short-box even-count comfortable-hold",
            "3 box short-box even-count",
            "4 tempo-ladder box long-exhale",
        ),
        "Breathing under load": (
            "1 side-lying-breath all-round-breath",
            "2 crocodile side-lying-breath all-round-breath",
            "3 crocodile-even-count crocodile even-count full-exhale",
            "3 sitting-breath side-lying-breath",
            "4 crocodile-box crocodile-even-count box",
            "4 crocodile-tuck crocodile tail-tuck",
            "4 all-fours-breath crocodile sitting-breath",
            "5 half-kneeling-breath sitting-breath",
            "5 standing-breath sitting-breath",
        ),
        "Breath in a stretch": (
            "1 rest-pose-back-ribs back-rib-breath",
            "1 strap-hamstring even-count",
            "2 side-lying-rotation-pulse side-lying-breath",
            "2 cat-cow-breath all-fours-breath rest-pose-back-ribs",
            "3 side-lying-rotation-hold side-lying-rotation-pulse",
            "3 half-kneeling-hip half-kneeling-breath strap-hamstring",
        ),
        "Dead bug, front line": (
            "0 ball-on-belly belly-breath",
            "1 ball-hold ball-on-belly brace-and-breathe even-count",
            "1 ball-squeeze ball-on-belly brace-and-breathe even-count",
            "2 one-limb ball-hold ball-squeeze",
            "3 diagonal one-limb",
            "3 no-ball-diagonal one-limb",
            "4 roll diagonal",
        ),
        "Dead bug, back line": (
            "1 band-press-out brace-and-breathe even-count",
            "2 band-roll band-press-out roll",
            "3 band-one-leg band-roll",
        ),
        "All fours": (
            "1 find-neutral all-fours-breath cat-cow-breath",
            "2 arm-lift find-neutral brace-and-breathe",
            "2 leg-press-back find-neutral brace-and-breathe",
            "3 bird-dog arm-lift leg-press-back diagonal",
            "4 bird-dog-block bird-dog",
            "5 bird-dog-slow bird-dog-block",
        ),
        "Into everyday movement": (
            "1 floor-up-and-down standing-breath full-exhale",
            "1 sit-to-stand standing-breath full-exhale",
            "2 hip-hinge sit-to-stand",
            "3 half-kneeling-lift hip-hinge half-kneeling-hip",
            "3 squat-breath hip-hinge",
            "4 carry-and-walk squat-breath half-kneeling-lift",
        ),
    }
)

_SETTINGS = Settings(
    title="Breathe, brace and move",
    summary="",
    language="en-GB",
    paper="a5",
    address="",
    studio=Studio("Saltmarsh Studio", "hello@saltmarsh-studio.example"),
    colours=Colours(),
    caution="",
    limits=Limits(),
    path="content/course.yml",
)
_LYING = Position("supine", "lying on the back", "supine", rank=0)
_RESTING = Effort("resting", met=1.3, edition="Compendium 2011", code="07011")
_COUNTED = Drill(_LYING, Tempo(4, 1, 4, 1), Dose(sets=2, breaths=6), _RESTING)
_SILENT = Words((), (), (), (), None, (), (), ())

MakeCourse = Callable[..., Course]


def _make_lesson(row: str, strand: Strand, titles: Mapping[str, str]) -> Lesson:
    level, name, *befores = row.split()
    return Lesson(
        id=name,
        title=titles.get(name, name.replace("-", " ").capitalize()),
        summary="",
        strand=strand,
        level=int(level),
        drill=_COUNTED,
        words=_SILENT,
        builds_on=tuple(befores),
        easier=(),
        harder=(),
        measures=(),
        ladder=(),
        waivers=(),
        allowed={},
        reviewed=None,
        figure=None,
        path=f"content/lessons/{strand.id}/{name}.md",
        positions={},
    )


@pytest.fixture(scope="session")
def make_course() -> MakeCourse:
    """Make a course from a table; every lesson asks the same of the body."""

    def make(table: Table, titles: Mapping[str, str] | None = None) -> Course:
        strands = {}
        lessons: list[Lesson] = []
        for title, rows in table.items():
            name = re.sub("[^a-z0-9]+", "-", title.lower()).strip("-")
            strands[name] = Strand(name, title, "", "calm", minutes=12)
            lessons += (_make_lesson(row, strands[name], titles or {}) for row in rows)
        return Course(
            settings=_SETTINGS,
            vocabulary=Vocabulary(strands=strands),
            traits={},
            reference_bodies=(),
            lessons=tuple(lessons),
            notices=(),
            glossary={},
            unreadable=frozenset(),
        )

    return make


@pytest.fixture(scope="session")
def long_course(make_course: MakeCourse) -> Course:
    """Fifty-eight lessons in ten strands."""
    return make_course(LONG_COURSE)


@pytest.fixture(scope="session")
def four_lessons(make_course: MakeCourse) -> Course:
    return make_course(FOUR_LESSONS)


@pytest.fixture
def golden(
    check_golden: Callable[[Path, str], None],
) -> Callable[[str, str], None]:
    """Compare a drawing with the golden file of that name."""

    def check(name: str, drawing: str) -> None:
        check_golden(Path(__file__).parent / "golden" / f"{name}.svg", drawing + "\n")

    return check
