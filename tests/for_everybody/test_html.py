"""One page of each kind is HTML as the standard has it, by the checker of its editors."""

import json
import re
from pathlib import Path

from tests.for_everybody.kinds import KINDS
from tests.java import run_java

CHECKER = Path(__file__).parents[1] / "browser_scripts/node_modules/vnu-jar/build/dist/vnu.jar"
"""The set-up for tests installs it."""
_POLICY = re.compile(r'<meta http-equiv="Content-Security-Policy"[^>]*>')


def check_html(folder: Path) -> list[str]:
    """Return what the checker finds in the pages of a folder, warnings too."""
    done = run_java(CHECKER, "--format", "json", folder)
    return [
        f"{Path(found['url']).name}:{found.get('lastLine')}: {found['message']}"
        for found in json.loads(done.stderr)["messages"]
    ]


def test_every_kind_of_page_is_valid(folder: Path, tmp_path: Path) -> None:
    """A file has no origin, so the policy would forbid it all: browsers test that elsewhere."""
    paths = sorted({kind.path.partition("#")[0] for kind in KINDS})
    for path in paths:
        page = folder / path if path.endswith(".html") else folder / path / "index.html"
        text, policies = _POLICY.subn("", page.read_text("utf-8"))
        assert policies == 1
        copy = tmp_path / f"{path.strip('/').replace('/', '-') or 'home'}.html"
        copy.write_text(text, encoding="utf-8")
    assert len(list(tmp_path.iterdir())) == len(paths)
    assert check_html(tmp_path) == []


def test_what_is_wrong_is_found(tmp_path: Path) -> None:
    page = '<!doctype html><html lang="en"><title>A page</title><p><ul></ul></p></html>'
    (tmp_path / "page.html").write_text(page, encoding="utf-8")
    assert check_html(tmp_path) == ["page.html:1: No “p” element in scope but a “p” end tag seen."]
