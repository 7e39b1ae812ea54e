"""What was printed into a folder of its own comes into the site once, by a move or by a copy."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from mkdocs.config.base import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files

from builder.mkdocs_files import swap_files

_MEMORY = Path("/dev/shm")  # noqa: S108  # a disk in memory, as temporary folders often are


class _Host(BasePlugin):  # type: ignore[type-arg,no-untyped-call]  # the host's hook has no types
    """Hands what lies in a folder to the host."""

    def __init__(self, printed: Path) -> None:
        self.printed = printed

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        swap_files(files, config, None, self.printed)
        return files


def hand_over(project: Path, printed: Path) -> File:
    """Give a card in a folder to a host, and return the host's own file of it."""
    (project / "docs").mkdir()
    (project / "mkdocs.yml").write_text("site_name: Test\n", encoding="utf-8")
    (printed / "cards").mkdir(parents=True)
    (printed / "cards/one.pdf").write_bytes(b"a card")
    config = load_config(str(project / "mkdocs.yml"))
    config.plugins["test"] = _Host(printed)
    (card,) = config.plugins.on_files(Files([]), config=config)
    return card


def test_a_printed_file_is_moved_and_can_still_be_read(tmp_path: Path) -> None:
    card = hand_over(tmp_path, tmp_path / "printed")
    card.copy_file()
    assert (tmp_path / "site/cards/one.pdf").read_bytes() == card.content_bytes == b"a card"
    assert not (tmp_path / "printed/cards/one.pdf").exists()


def test_a_printed_file_on_another_disk_is_copied(tmp_path: Path) -> None:
    if not _MEMORY.is_dir() or _MEMORY.stat().st_dev == tmp_path.stat().st_dev:
        pytest.skip("there is one disk only")
    with TemporaryDirectory(dir=_MEMORY) as folder:
        hand_over(tmp_path, Path(folder)).copy_file()
    assert (tmp_path / "site/cards/one.pdf").read_bytes() == b"a card"
