"""What is shipped with the tool is whole, or nothing is made with it."""

import shutil
from pathlib import Path

import pytest

from builder.errors import BuilderError
from builder.resources import find_fonts, refuse_strange_fonts

FONTS = sorted(path.name for path in find_fonts().iterdir() if path.suffix in (".ttf", ".woff2"))


def test_all_fonts_are_listed() -> None:
    lines = (find_fonts() / "SHA256SUMS").read_text(encoding="utf-8").splitlines()
    assert sorted(line.split()[1] for line in lines) == FONTS


@pytest.mark.parametrize("name", FONTS)
def test_without_any_one_font_nothing_is_made(name: str, tmp_path: Path) -> None:
    folder = shutil.copytree(find_fonts(), tmp_path / "fonts")
    (folder / name).write_bytes(b"\0\1\0\0 begins as a font does")
    with pytest.raises(BuilderError, match=f'own font "{name}" is damaged; install'):
        refuse_strange_fonts(folder)
    (folder / name).unlink()
    with pytest.raises(BuilderError, match=f'own "{name}" is missing; install tempoleaf again'):
        refuse_strange_fonts(folder)


def test_a_list_that_is_gone_is_missed_too(tmp_path: Path) -> None:
    with pytest.raises(BuilderError, match='"SHA256SUMS" is missing'):
        refuse_strange_fonts(tmp_path)
