"""The rules of the house that a reader can't see at a glance: layers, names, sizes."""

import ast
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
BUILDER = ROOT / "builder"
MODULES = sorted(path for path in BUILDER.rglob("*.py"))
NAMES = [path.relative_to(BUILDER).as_posix() for path in MODULES]

ALL_BUT_SHELLS = {
    *("findings", "errors", "resources", "rules", "course", "sums", "reading", "checks"),
    *("report", "work", "machine", "language", "records"),
}
MAY_IMPORT = {
    "findings": set(),
    "errors": set(),
    "input_limits": set(),
    "resources": {"errors"},
    "rules": {"findings", "errors", "input_limits"},
    "course": {"findings", "errors"},
    "sums": {"course", "errors"},
    "reading": {"course", "sums", "rules", "work", "findings", "errors", "input_limits"},
    "checks": {"course", "sums", "rules", "language", "work", "findings", "errors"},
    "checked": {"reading", "checks", "records", "rules", "work", "findings"},
    "records": {"course", "reading", "rules", "work", "findings", "errors", "input_limits"},
    "planning": {"course", "sums", "records", "findings", "errors"},
    "language": {"course", "resources", "errors"},
    "drawing": {"course", "sums", "language", "errors"},
    "starting": ALL_BUT_SHELLS,
    "report": {"course", "sums", "rules", "records", "planning", "findings", "errors"},
    "work": {"findings", "errors", "resources", "input_limits"},
    "machine": {"errors"},
    "start": {"machine"},
}
"""What each part of the package may import besides itself; the parts that are not here are
publishing, which may import all but checks and the shells, and the shells themselves."""
MKDOCS = {path.name for path in BUILDER.glob("mkdocs_*.py")}
SHELLS = {"cli", *(name.removesuffix(".py") for name in MKDOCS)}
PUBLISHING_MAY_NOT = {"checks", "machine", "start", *SHELLS}

ONLY_IN = {
    "mkdocs": MKDOCS,
    "yaml": {"reading/yaml_tree.py", "reading/yaml_cut.py"},
    "typer": {"cli/"},
    "pydantic": {"reading/", "records/"},
    "highspy": {"planning/solver.py"},
    "numpy": {"planning/solver.py"},
    "filelock": {"records/journal.py"},
    "openpyxl": {"records/spreadsheet.py"},
    "jinja2": {"publishing/", "mkdocs_"},
    "babel": {"language.py"},
    "pikepdf": {"publishing/"},
    "rich": {"report/", "cli/"},
    "soundfile": {"publishing/tracks.py"},
    "icalendar": {"publishing/calendar.py"},
    "pyrage": {"work/lockbox.py"},
    "distributed": {"work/cluster.py"},
    "PIL": {"publishing/proof/privacy/pictures.py"},
}
"""Where a library may be known."""
VAGUE = {"utils", "helpers", "common", "misc", "base", "core", "manager", "data", "info"}


@cache
def read(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imported(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are absolute"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def layer_of(name: str) -> str:
    """Return the part of builder that an imported name or a path belongs to."""
    return name.removesuffix(".py").replace("/", ".").split(".")[0]


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_imports_go_one_way(path: Path) -> None:
    layer = layer_of(path.relative_to(BUILDER).as_posix())
    inside = [name.split(".", 1)[1] for name in imported(read(path)) if name.startswith("builder.")]
    others = {layer_of(name) for name in inside if name != "__version__"} - {layer}
    if layer == "publishing":
        assert not others & PUBLISHING_MAY_NOT
    elif layer not in SHELLS and layer != "__init__":
        assert others <= MAY_IMPORT[layer]


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_libraries_are_known_in_their_own_place_only(path: Path) -> None:
    here = path.relative_to(BUILDER).as_posix()
    for name in imported(read(path)):
        allowed = ONLY_IN.get(name.split(".")[0])
        assert allowed is None or any(here.startswith(place) for place in allowed), name


def test_one_module_knows_the_engine_that_makes_pdfs() -> None:
    users = [name for name, path in zip(NAMES, MODULES, strict=True) if has_engine(path)]
    assert users == ["publishing/cards/pdf.py"]


def has_engine(path: Path) -> bool:
    return "weasyprint" in roots(read(path))


@pytest.mark.parametrize(
    "word", ["check", "explain", "demand", "schema", "doctor", "serve", "new", "record", "person"]
)
def test_commands_that_make_no_page_load_no_engine(word: str) -> None:
    script = (
        f"import sys, builder.cli.{word}_command; "
        "print(*sorted({name.split('.')[0] for name in sys.modules}))"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", script], cwd=ROOT, capture_output=True, text=True, check=True
    ).stdout.split()
    assert not set(loaded) & {"mkdocs", "weasyprint", "numpy", "pikepdf", "pypdfium2", "soundfile"}


def roots(tree: ast.Module) -> set[str]:
    return {name.split(".")[0] for name in imported(tree)}


@pytest.mark.parametrize("path", sorted((BUILDER / "machine").glob("*.py")), ids=lambda p: p.name)
def test_the_way_in_needs_the_standard_library_only(path: Path) -> None:
    outside = roots(read(path)) - {"builder", "__future__"} - set(sys.stdlib_module_names)
    allowed = {"packaging"} if path.name in NEED_PACKAGES else set()
    assert outside <= allowed


NEED_PACKAGES = frozenset({"lock.py", "needs.py"})
"""Modules for the doctor alone, which runs when everything is installed."""


def test_no_module_has_a_vague_name() -> None:
    parts = {part for name in NAMES for part in Path(name).with_suffix("").parts}
    assert not parts & VAGUE


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_files_and_functions_are_short(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 300
    for node in ast.walk(read(path)):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            assert (node.end_lineno or 0) - node.lineno < 50, node.name
        if isinstance(node, ast.ClassDef):
            assert (node.end_lineno or 0) - node.lineno < 150, node.name


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_product_code_has_no_shortcuts(path: Path) -> None:
    text = path.read_text(encoding="utf-8")
    for node in ast.walk(read(path)):
        assert not isinstance(node, ast.Assert | ast.Global), f"line {node.lineno}"
        if isinstance(node, ast.ExceptHandler):
            caught = node.type.id if isinstance(node.type, ast.Name) else node.type
            passes_on = isinstance(node.body[-1], ast.Raise) and node.body[-1].exc is None
            blind = caught in (None, "Exception", "BaseException")
            assert passes_on or not blind, f"line {node.lineno}"
    assert not re.search(r"\bTODO\b|\bFIXME\b|\bTYPE_CHECKING\b", text)
    assert not re.search(r"# type: ignore(?!\[)", text)


@pytest.mark.parametrize("path", MODULES, ids=NAMES)
def test_every_module_class_and_public_function_says_what_it_is_for(path: Path) -> None:
    tree = read(path)
    assert ast.get_docstring(tree)
    for node in public_nodes(tree.body):
        assert ast.get_docstring(node), node.name


def public_nodes(body: list[ast.stmt]) -> Iterator[ast.ClassDef | ast.FunctionDef]:
    for node in body:
        if isinstance(node, ast.ClassDef | ast.FunctionDef) and not node.name.startswith("_"):
            yield node
            yield from public_nodes(node.body) if isinstance(node, ast.ClassDef) else ()


def test_templates_do_no_arithmetic() -> None:
    sums = re.compile(
        r"\{[{%][^}]*(?:[\w)] *[*/] *[\w(]|\d *[-+] *\d|loop\.index *[-+])[^}]*[}%]\}"
    )
    for path in (ROOT / "site_templates").rglob("*"):
        if path.suffix in {".html", ".jinja", ".md", ".j2"}:
            assert not sums.search(path.read_text(encoding="utf-8")), path.name
