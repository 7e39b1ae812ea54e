"""The lock files: whole, pinned, hashed, and naming no place."""

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from builder.machine.lock import find_unmet, read_lock

ROOT = Path(__file__).parent.parent.parent
RUN, TEST = ROOT / "requirements.lock", ROOT / "tests" / "requirements.lock"
PYPROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
ENTRY = re.compile(r"[a-z0-9-]+==[^\s;]+( ; [^\\]+)?( --hash=sha256:[0-9a-f]{64})+")


def entries(lock: Path) -> list[str]:
    text = re.sub(r" *\\\n *", " ", lock.read_text(encoding="utf-8"))
    return [line.rstrip() for line in text.splitlines() if not line.startswith("#")]


@pytest.mark.parametrize("lock", [RUN, TEST], ids=["run", "test"])
def test_every_package_is_pinned_and_has_hashes(lock: Path) -> None:
    found = entries(lock)
    assert found
    assert [entry for entry in found if not ENTRY.fullmatch(entry)] == []


@pytest.mark.parametrize("lock", [RUN, TEST], ids=["run", "test"])
def test_no_line_names_a_place(lock: Path) -> None:
    assert not re.search(r"://|index-url|find-links|/[a-z]+/", lock.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("wanted", "locks"),
    [
        (PYPROJECT["project"]["dependencies"], (RUN,)),
        (PYPROJECT["build-system"]["requires"], (RUN,)),
        (PYPROJECT["dependency-groups"]["set-up"], (RUN,)),
        (PYPROJECT["project"]["optional-dependencies"]["test"], (RUN, TEST)),
    ],
    ids=["run", "build", "set-up", "test"],
)
def test_the_lock_holds_all_that_the_project_asks_for(
    wanted: list[str], locks: tuple[Path, ...]
) -> None:
    locked = {canonicalize_name(entry.name): entry for lock in locks for entry in read_lock(lock)}
    for requirement in map(Requirement, wanted):
        (pin,) = locked[canonicalize_name(requirement.name)].specifier
        assert requirement.specifier.contains(pin.version), requirement


def test_the_test_tools_repeat_nothing() -> None:
    names = [{entry.partition("==")[0] for entry in entries(lock)} for lock in (RUN, TEST)]
    assert names[0] & names[1] == set()


def test_a_lock_entry_for_another_system_is_left_out(tmp_path: Path) -> None:
    lock = tmp_path / "requirements.lock"
    lock.write_text(
        "# a word before\n"
        "here==1.0 \\\n    --hash=sha256:00\n"
        "elsewhere==1.0 ; sys_platform == 'moon' \\\n    --hash=sha256:00\n"
        "newer==1.0 ; python_full_version >= '3.11'\n",
        encoding="utf-8",
    )
    assert [entry.name for entry in read_lock(lock)] == ["here", "newer"]


def test_a_missing_package_and_another_version_are_both_told() -> None:
    unmet = list(find_unmet(map(Requirement, ("pytest==0.1", "no-such-thing==1", "pytest>=1"))))
    assert [(entry.name, version is None) for entry, version in unmet] == [
        ("pytest", False),
        ("no-such-thing", True),
    ]
