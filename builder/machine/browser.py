"""The browser that the tests of finished pages run."""

import shutil

BROWSERS = ("chromium", "chromium-browser", "chrome", "google-chrome")


def find_browser() -> str | None:
    """Find the program file of a Chromium, or nothing."""
    return next((found for name in BROWSERS if (found := shutil.which(name))), None)
