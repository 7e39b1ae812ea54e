"""The sidebar's closed sections: written once for many pages, and as the theme writes them."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from jinja2 import Environment
from mkdocs.commands.build import get_context
from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, get_files
from mkdocs.structure.nav import get_navigation
from mkdocs.structure.pages import Page

from builder.mkdocs_entries import Entries, remember_entries
from builder.publishing.site.host import THEME_FEATURES

PAGES = ("index.md", "a/index.md", "a/one.md", "a/two.md", "b/index.md", "b/deep/three.md", "c.md")


@dataclass
class Entry:
    """An entry of a navigation."""

    url: str
    active: bool = False
    children: tuple["Entry", ...] = field(default=())


@pytest.fixture
def config(tmp_path: Path) -> MkDocsConfig:
    for name in PAGES:
        path = tmp_path / "docs" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"# Page {name}\n\n## Part\n", encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text("site_name: S\ntheme: {name: material}\n")
    config = load_config(str(tmp_path / "mkdocs.yml"))
    config.theme["features"] = list(THEME_FEATURES)
    return config


def write_all(config: MkDocsConfig, environment: Environment) -> Iterator[str]:
    files = get_files(config)
    nav = get_navigation(files, config)
    for page in nav.pages:
        page.read_source(config)
        page.render(config, files)
    template = environment.get_template("main.html")
    for page in nav.pages:
        page.active = True
        context = get_context(nav, files, config, page)
        yield template.render({**context, "build_date_utc": None})
        page.active = False


def make_page(config: MkDocsConfig, name: str) -> Page:
    return Page(None, File(name, config.docs_dir, config.site_dir, True), config)


def test_pages_are_to_the_letter_what_the_theme_makes_of_them(config: MkDocsConfig) -> None:
    ours = config.theme.get_env()
    assert remember_entries(ours, config)  # else the theme is another one, to be looked at anew
    assert list(write_all(config, ours)) == list(write_all(config, config.theme.get_env()))


def test_an_entry_is_written_once_for_pages_from_which_it_looks_alike(config: MkDocsConfig) -> None:
    entries, written = Entries(), []
    closed, opened = Entry("", children=(Entry("b/x/"),)), Entry("", True, (Entry("a/y/"),))

    def render(item: Entry, path: str, level: int) -> str:
        written.append((path, level))
        return path

    for name in ("a/one.md", "a/two.md", "c.md", "index.md"):
        entries.show(make_page(config, name), closed, "closed", render)
        entries.show(make_page(config, name), opened, "opened", render)
    assert written.count(("opened", 1)) == 4
    assert written.count(("closed", 1)) == 3  # from two folders and from the home page


@pytest.mark.parametrize("change", ["feature", "text"])
def test_another_theme_is_left_alone(config: MkDocsConfig, tmp_path: Path, change: str) -> None:
    if change == "feature":
        config.theme["features"] = ["navigation.expand"]
    else:
        mine = tmp_path / "partials" / "nav-item.html"
        mine.parent.mkdir()
        mine.write_text("{% macro render(item, path, level) %}mine{% endmacro %}")
        config.theme.dirs.insert(0, str(tmp_path))
    environment = config.theme.get_env()
    loader = environment.loader
    assert not remember_entries(environment, config)
    assert environment.loader is loader
