"""A project that a stranger sent with a cache in it: nothing in it is believed, nothing runs."""

import marshal
import pickle
from io import BytesIO
from pathlib import Path

import pytest
from jinja2.bccache import bc_magic

from builder.work.store import ContentStore
from tests.conftest import copy_small_course
from tests.running import run_host
from tests.test_kept_pages import read_site

SETTINGS = """\
site_name: A small course
docs_dir: content
theme: {name: material}
plugins: [search, tempoleaf: {cards: false}]
"""
_MARK_BYTES = 32


@pytest.fixture
def project(tmp_path: Path) -> Path:
    """Give a small course that was built once, so that its cache has every kind of piece."""
    root = copy_small_course(tmp_path / "project")
    (root / "mkdocs.yml").write_text(SETTINGS, encoding="utf-8")
    build(root)
    return root


def build(project: Path) -> dict[str, bytes]:
    done = run_host("build", "-d", str(project / "site"), folder=project)
    assert done.returncode == 0, done.stderr
    return read_site(project / "site")


def forge(piece: bytes, canary: Path) -> bytes:
    """Return a piece that says "magician" for "clinician", or code that leaves a file behind."""
    if piece.startswith(bc_magic):
        code = compile(f"open({str(canary)!r}, 'w').close()", "forged", "exec")
        file = BytesIO(piece)
        file.seek(len(bc_magic))
        pickle.load(file)  # noqa: S301  # of the template's text, and our own
        return piece[: file.tell()] + marshal.dumps(code)
    return piece.replace(b"clinician", b"magician!")


def test_a_strangers_cache_changes_no_page_and_runs_nothing(project, tmp_path):
    whole, canary, forged = read_site(project / "site"), tmp_path / "canary", 0
    for folder in (project / ".cache").iterdir():
        strangers = ContentStore(folder, secret=b"another user's secret, of no use")
        for path in [path for path in folder.rglob("*") if path.is_file()]:
            content = path.read_bytes()
            key, piece = path.parent.name + path.name, content[_MARK_BYTES:]
            other = forge(piece, canary)
            forged += other != piece
            strangers.put(key, other)
    assert forged > 10
    assert build(project) == whole
    assert not canary.exists()
