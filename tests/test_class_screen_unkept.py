"""A tablet that keeps nothing: the class screen says so, works on, and gives its file at once."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Page

from builder.machine.browser import find_browser
from builder.publishing.class_screen.screen import write_class_screen
from tests.browser_scripts.pages import note_faults, open_browser_without_storage
from tests.publishing.class_screen.views import make_view

pytestmark = pytest.mark.skipif(find_browser() is None, reason="no Chromium on this machine")


@pytest.fixture
def page(tmp_path: Path) -> Iterator[Page]:
    file = tmp_path / "screen.html"
    file.write_text(write_class_screen(make_view()), encoding="utf-8")
    with open_browser_without_storage(tmp_path / "profile") as context:
        opened = context.new_page()
        faults = note_faults(opened)
        opened.goto(file.as_uri())
        yield opened
        assert faults == []


def test_it_says_so_and_gives_the_file(page: Page, tmp_path: Path) -> None:
    assert page.get_by_text("This device keeps nothing").is_visible()
    page.get_by_role("button", name="Start the class").click()
    page.locator("[data-tl-outcome=ready]:visible").first.click()
    with page.expect_download() as download:
        page.get_by_role("button", name="Save the file now").click()
    download.value.save_as(tmp_path / "rows.csv")
    (_, row) = (tmp_path / "rows.csv").read_text(encoding="utf-8").splitlines()
    assert row.split(",")[3:6] == ["C5", "hands-check-lying", "ready"]
