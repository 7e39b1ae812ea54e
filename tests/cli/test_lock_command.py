"""`tempoleaf lock` and `tempoleaf unlock` as coaches run them."""

from pathlib import Path

import pytest
from click.testing import Result
from typer.testing import CliRunner

from builder.cli.app import make_app

WORDS = "four loud geese sleep"


def run(*words: str, typed: str = "", variables: dict[str, str] | None = None) -> Result:
    return CliRunner().invoke(make_app(["lock", "unlock"]), words, input=typed, env=variables)


@pytest.fixture
def project(tmp_path: Path) -> Path:
    pytest.importorskip("pyrage")
    (tmp_path / "program/classes").mkdir(parents=True)
    (tmp_path / "program/people.csv").write_text("id,name,conditions\n")
    return tmp_path


def test_it_asks_twice_and_opens_again(project: Path) -> None:
    done = run("lock", "--project", str(project), typed=f"{WORDS}\n{WORDS}\n")
    assert done.exit_code == 0, done.output
    assert "it was opened again to prove it" in done.output
    assert WORDS not in done.output
    done = run("unlock", str(project / "coach.age"), str(project / "open"), typed=f"{WORDS}\n")
    assert done.exit_code == 0, done.output
    assert (project / "open/program/people.csv").is_file()


def test_the_environment_may_give_the_passphrase(project: Path) -> None:
    variables = {"TEMPOLEAF_PASSPHRASE": WORDS}
    done = run("lock", "--project", str(project), variables=variables)
    assert done.exit_code == 0, done.output
