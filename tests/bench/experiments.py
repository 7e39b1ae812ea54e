"""What is compared with what, at which sizes, and what each ratio should be at most."""

import importlib.util
import sys
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path

from tests.bench import proofs
from tests.bench.courses import change_words, list_ids, list_lessons
from tests.bench.pairing import Quantity, Step
from tests.bench.process import BenchError
from tests.bench.workshop import HOST, ROOT, TOOL, Workshop

_WORDS = "Take it quietly now"
_BOTH = (Quantity.WALL, Quantity.CPU)
_FEW_SHARE = 40
MakeSteps = Callable[[Workshop, Path, int], tuple[Step, ...]]


@dataclass(frozen=True, slots=True)
class Ratio:
    """A line of the table: one step ÷ another."""

    title: str
    top: str
    bottom: str
    goals: Mapping[int, float] = field(default_factory=dict)
    """What the median should be at most, by the number of lessons."""
    quantities: tuple[Quantity, ...] = (Quantity.WALL,)


@dataclass(frozen=True, slots=True)
class Experiment:
    """Steps that run one after the other in each round, and what is divided by what."""

    key: str
    sizes: tuple[int, ...]
    ratios: tuple[Ratio, ...]
    make_steps: MakeSteps
    lacks: Callable[[], str] = str
    """Why it can't be run here; empty where it can."""


def _site(work: Workshop, folder: Path, lessons: int) -> tuple[Step, ...]:
    work.lay_out(folder / "own", lessons, cards=False)
    own_site, stock_site = folder / "own-site", folder / "stock-site"
    own = _host("own", folder / "own" / "mkdocs.yml", own_site, lessons)
    stock = _host("stock", work.find_plain(lessons) / "mkdocs.yml", stock_site, lessons)

    def prove(said: str) -> None:
        stock.prove(said)
        proofs.prove_alike(own_site, stock_site)

    return (own, Step("stock", stock.commands, prove))


def _host(name: str, settings: Path, site: Path, lessons: int) -> Step:
    command = (HOST, "build", "-q", "-f", str(settings), "-d", str(site))
    return Step(name, (command,), lambda _: proofs.prove_pages(site, lessons))


def _growth(work: Workshop, folder: Path, lessons: int) -> tuple[Step, ...]:
    sizes = {"N": lessons, "2 N": 2 * lessons}
    for name, size in sizes.items():
        work.lay_out(folder / name, size, cards=False)
    return tuple(
        _host(name, folder / name / "mkdocs.yml", folder / f"{name} site", size)
        for name, size in sizes.items()
    )


def _build(name: str, course: Path, lessons: int) -> Step:
    command = (TOOL, "build", str(course))
    return Step(name, (command,), lambda _: proofs.prove_pages(course / "site", lessons))


def _edit(work: Workshop, folder: Path, lessons: int) -> tuple[Step, ...]:
    course = folder / "course"
    work.lay_out(course, lessons, cards=False)
    return (_build("full", course, lessons), _build_changed(course, lessons))


def _build_changed(course: Path, lessons: int, memory: proofs.Memory | None = None) -> Step:
    path = choose_lesson(course)
    page = course / "site" / path.removesuffix(".md") / "index.html"
    build = _build("changed", course, lessons)

    def prove(said: str) -> None:
        build.prove(said)
        proofs.prove_said(page, _WORDS)
        if memory:
            memory.compare_names(course / "site")
            prove_card_changed(memory, course / "site", Path(path).stem)

    return Step("changed", build.commands, prove, lambda: change_lesson(course, path))


def choose_lesson(course: Path) -> str:
    """Return the path of the lesson in the middle, from the content folder."""
    lessons = list_lessons(course)
    return lessons[len(lessons) // 2]


def change_lesson(course: Path, path: str) -> None:
    """Change a lesson's first step, and see that it wasn't so before."""
    file = course / "content" / path
    before = file.read_text(encoding="utf-8")
    change_words(course, path, _WORDS)
    if _WORDS in before or _WORDS not in file.read_text(encoding="utf-8"):
        raise BenchError(f'"{file}" could not be changed')


def prove_card_changed(memory: proofs.Memory, site: Path, lesson_id: str) -> None:
    """See that the lesson's own card is another one than before."""
    card = Path("cards", f"{lesson_id}.pdf")
    if memory.files.get(card.as_posix()) in (None, proofs.digest_file(site / card)):
        raise BenchError(f'"{card}" is as it was, though its lesson says something else')


def _again(work: Workshop, folder: Path, lessons: int) -> tuple[Step, ...]:
    course, memory = folder / "course", proofs.Memory()
    work.lay_out(course, lessons)
    build = _build("full", course, lessons)

    def prove_full(said: str) -> None:
        build.prove(said)
        proofs.prove_cards(course / "site" / "cards", list_ids(course))
        memory.keep(course / "site")

    return (
        Step("full", build.commands, prove_full),
        Step("unchanged", build.commands, lambda _: memory.compare(course / "site")),
        _build_changed(course, lessons, memory),
    )


def _cards(work: Workshop, folder: Path, cards: int) -> tuple[Step, ...]:
    work.lay_out(folder / "course", cards)
    script = ROOT / "tests" / "bench" / "naive_cards.py"
    source, target = work.find_card_html(cards), folder / "naive"
    naive = (sys.executable, str(script), str(source), str(target))
    ids = list_ids(folder / "course")

    def prove(_: str) -> None:
        proofs.prove_cards(target, ids)
        proofs.prove_like_cards(target, folder / "course" / "cards")

    return (_print("own", folder / "course"), Step("naive", (naive,), prove))


def _print(name: str, course: Path, *words: str) -> Step:
    command = (TOOL, "cards", "--project", str(course), *words)
    ids = list_ids(course)
    return Step(name, (command,), lambda _: proofs.prove_cards(course / "cards", ids))


def _packs(work: Workshop, folder: Path, cards: int) -> tuple[Step, ...]:
    once, twice = folder / "once", folder / "twice"
    for course in (once, twice):
        work.lay_out(course, cards)
    both, singles = _print("both", once, "--packs"), _print("singles", twice)
    packs = _print("packs", twice, "--packs")

    def prove(step: Step, course: Path) -> Callable[[str], None]:
        def prove_all(said: str) -> None:
            step.prove(said)
            proofs.prove_packs(course / "cards")

        return prove_all

    return (
        Step("together", both.commands, prove(both, once)),
        Step("one by one", (*singles.commands, *packs.commands), prove(packs, twice)),
    )


def _memory(work: Workshop, folder: Path, cards: int) -> tuple[Step, ...]:
    sizes = {"many": cards, "few": max(cards // _FEW_SHARE, 1)}
    for name, size in sizes.items():
        work.lay_out(folder / name, size)
    return tuple(_print(name, folder / name) for name in sizes)


def _check(work: Workshop, folder: Path, lessons: int) -> tuple[Step, ...]:
    course, memory = folder / "course", proofs.Memory()
    work.lay_out(course, lessons)
    command = (TOOL, "check", str(course))

    def prove_first(said: str) -> None:
        proofs.prove_told(said, lessons)
        memory.said = said

    def prove_same(said: str) -> None:
        proofs.prove_told(said, lessons)
        if said != memory.said:
            raise BenchError("the second check says something else than the first")

    return (Step("first", (command,), prove_first), Step("unchanged", (command,), prove_same))


def _typst(work: Workshop, folder: Path, cards: int) -> tuple[Step, ...]:
    work.lay_out(folder / "course", cards)
    script, fonts = ROOT / "tests/bench/typst_cards.py", ROOT / "site_templates" / "fonts"
    target = folder / "typst"
    command = (sys.executable, str(script), str(work.find_card_html(cards)), str(target))
    ids = list_ids(folder / "course")
    return (
        _print("own", folder / "course"),
        Step("typst", ((*command, str(fonts)),), lambda _: proofs.prove_cards(target, ids)),
    )


def _find_typst() -> str:
    return "" if importlib.util.find_spec("typst") else "typst is not installed"


_FULL = "full site build, cards off (`mkdocs build`) ÷ stock Material, pruned, on the same Markdown"
_EDIT = "one lesson's text changed ÷ full, cards off (`tempoleaf build`)"
_EDIT_ALL = "one lesson changed, site and cards ÷ full with cards (`tempoleaf build`)"
_SAME = "nothing changed ÷ full, with cards (`tempoleaf build`)"
_PACKS = "singles and packs ÷ singles, then packs again (`tempoleaf cards`, caches kept)"
_WORKER = "peak memory of a card worker, N cards ÷ a fortieth of them"

EXPERIMENTS = (
    Experiment(
        "site",
        (200, 1000),
        (Ratio(_FULL, "own", "stock", {200: 1.0, 1000: 1.0}, _BOTH),),
        _site,
    ),
    Experiment(
        "growth",
        (1000,),
        (
            Ratio(
                "own full site build, cards off, 2 N ÷ N (`mkdocs build`)", "2 N", "N", {1000: 2.1}
            ),
        ),
        _growth,
    ),
    Experiment(
        "edit",
        (200, 1000, 2000),
        (Ratio(_EDIT, "changed", "full", {200: 0.25, 1000: 0.07, 2000: 0.05}),),
        _edit,
    ),
    Experiment(
        "again",
        (200,),
        (
            Ratio(_EDIT_ALL, "changed", "full", {200: 0.08}),
            Ratio(_SAME, "unchanged", "full", {200: 0.04}),
        ),
        _again,
    ),
    Experiment(
        "cards",
        (100,),
        (Ratio("client cards ÷ naive WeasyPrint loop, same HTML", "own", "naive", {100: 0.30}),),
        _cards,
    ),
    Experiment("packs", (50,), (Ratio(_PACKS, "together", "one by one", {50: 0.70}),), _packs),
    Experiment(
        "memory",
        (2000,),
        (Ratio(_WORKER, "many", "few", {2000: 1.10}, (Quantity.WORKER_MEMORY,)),),
        _memory,
    ),
    Experiment(
        "check",
        (2000,),
        (
            Ratio(
                "`tempoleaf check`, nothing changed ÷ first run", "unchanged", "first", {2000: 0.05}
            ),
        ),
        _check,
    ),
    Experiment(
        "typst",
        (100,),
        (Ratio("card rate ÷ typst, same words and drawings", "typst", "own"),),
        _typst,
        _find_typst,
    ),
)
"""In the order of the table."""
