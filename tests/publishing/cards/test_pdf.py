"""The press opens the tool's own fonts and nothing else."""

from pathlib import Path

import pytest

from builder.errors import FetchRefusedError
from builder.publishing.cards.pdf import open_press


@pytest.mark.parametrize(
    "html",
    [
        '<img src="https://elsewhere.example/a.png" alt="a">',
        '<img src="file:///etc/hostname" alt="a">',
        '<link rel="stylesheet" href="http://elsewhere.example/a.css">',
        '<style>@import url("file:///etc/hostname");</style>',
        '<p style="background: url(https://elsewhere.example/a.png)">x</p>',
        '<img src="course:/fonts/../../pyproject.toml" alt="a">',
        '<img src="course:/fonts/..%2f..%2fpyproject.toml" alt="a">',
        '<img src="relative.png" alt="a">',
    ],
)
def test_no_other_address_is_opened(html: str) -> None:
    with pytest.raises(FetchRefusedError, match="asks for"):
        open_press().lay_out(f"<html lang=en><title>x</title><body>{html}", "")


def test_no_file_is_attached(tmp_path: Path) -> None:
    secret = tmp_path / "secret.txt"
    secret.write_text("private")
    html = f'<html lang=en><title>x</title><link rel="attachment" href="{secret.as_uri()}"><p>x'
    with pytest.raises(FetchRefusedError, match="asks for"):
        open_press().lay_out(html, "").write()
