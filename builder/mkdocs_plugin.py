"""The MkDocs plugin: hands the course's pages to the host. A thin shell without logic."""

import os
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Literal

from jinja2 import Environment
from mkdocs.commands.build import build
from mkdocs.config import config_options, load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import clean_directory
from mkdocs.utils.templates import TemplateContext

from builder.checks.order import find_out_of_order
from builder.course.course import Course
from builder.errors import BuilderError
from builder.findings import Finding
from builder.mkdocs_cards import print_cards
from builder.mkdocs_files import swap_files
from builder.mkdocs_findings import stop_the_build, told_by_the_host, told_to_the_host
from builder.mkdocs_glance import Glance
from builder.mkdocs_pages import PageShelf
from builder.mkdocs_parts import Order, Parts
from builder.mkdocs_reading import Looked, look_unless_known, refuse_traps
from builder.mkdocs_settings import settle
from builder.publishing.pages.links import lesson_page
from builder.publishing.site.additions import Additions
from builder.publishing.site.edition import Edition, make_edition, open_shelf
from builder.publishing.site.finish import finish_site, prove_site
from builder.resources import find_templates
from builder.sums.paper import PAPERS
from builder.work.folder_files import FolderFiles
from builder.work.progress import Lines, Progress, Stages, count_up

_NAME_PLUGIN = "add tempoleaf to the list under plugins"
log = get_plugin_logger(__name__)


class CourseConfig(Config):  # type: ignore[no-untyped-call]  # the host's hook has no types
    """What a site's own settings may say about the course."""

    cards = config_options.Type(bool, default=True)
    """Whether a build makes cards; the preview never does."""
    policy = config_options.Type(bool, default=True)
    """Whether pages say what they may load; a site that asks others for scripts needs it off."""
    papers = config_options.ListOfItems(config_options.Choice(tuple(PAPERS)), default=list(PAPERS))


class CoursePlugin(BasePlugin[CourseConfig]):  # type: ignore[no-untyped-call]  # as above
    """Checks the course before MkDocs reads a page, then gives MkDocs the pages."""

    def __init__(self) -> None:
        self.stopped_by: tuple[Finding, ...] = ()
        """What stood in the way of the last build."""
        self.order = Order(Path())
        """What was asked for, by whoever builds a site with ``build_site``."""
        self.looked: Looked | None = None
        """What that one has read and checked already; for one build, as files may change."""
        self.progress = _tell_log()
        self._pages: Iterator[int] = iter(())
        self._parts = Parts(self.order, (), build_site)
        self._is_preview = False
        self._edition: Edition | None = None
        self._shelf: PageShelf | None = None
        self._cards: TemporaryDirectory[str] | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Remember whether pages are published or only looked at."""
        self._is_preview = command == "serve"

    @event_priority(100)  # before the search, which asks the theme for its language
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check the course, stop if it may not be published, and settle the host."""
        root = Path(config.config_file_path).parent
        content = os.path.relpath(config.docs_dir, root).replace(os.sep, "/")
        self.progress.tell("reading and checking")
        self.stopped_by = ()
        brought, self.looked = self.looked, None
        with told_to_the_host():
            looked = look_unless_known(root, content, self.order.language, brought)
            refuse_traps(root, content, is_preview=self._is_preview)
        reading, found = looked.reading, looked.findings
        self._report(found, config)
        self._clear()
        order = self.order.settle(
            Path(config.config_file_path),
            is_strict=bool(config.strict),
            has_cards=self.config.cards,
            is_preview=self._is_preview,
        )
        self._parts = Parts(order, reading.list_languages(), build_site)
        papers = self.config.papers if self.config.cards and not self._is_preview else ()
        urls = config.use_directory_urls
        with told_to_the_host():
            has_proof = not self._is_preview
            edition = _make_edition(looked, papers, directory_urls=urls, has_proof=has_proof)
            self._edition = edition.with_findings(found if self._is_preview else ())
            self._cards, faults = print_cards(self._edition.excerpts, root, order, self.progress)
        self._report(faults, config)
        settle(config, self._edition)
        return config

    @event_priority(50)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Swap the sources of lessons and notices for the finished pages, and open their shelf."""
        printed = Path(self._cards.name) if self._cards else None
        asides = swap_files(files, config, self._edition, printed)
        self._pages = count_up(self.progress, "pages", len(files.documentation_pages()))
        switch = self._edition.switch if self._edition else None
        # The preview adds a script of its own, and so goes without the policy.
        ours = Additions(asides, switch, self.config.policy and not self._is_preview)
        self._shelf = PageShelf(config, self, ours, self.order.spare)
        return files

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Look whether the navigation shows lessons in an order that can be learned."""
        if self._edition and self._edition.site:
            self._report(_look_at_order(self._edition.site.course, nav), config)
        if self._shelf:
            self._shelf.see(nav, config, files)
        return nav

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Spare the host the template and the search's work for pages that are kept."""
        if self._shelf:
            with told_to_the_host():
                self._shelf.make_missing(env, config, files)
        return env

    @event_priority(60)  # before the search, which goes through the page's words
    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Tell the theme where a page stands in other languages; spare the search kept ones."""
        told: Any = context  # the host's own type knows no names of ours
        told["other_languages"] = ()
        if self._shelf:
            self._shelf.spare_search(page)
            told["other_languages"] = self._shelf.additions.list_others(page.file.src_uri)
        return context

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Put back what was laid aside, and finish the page, unless it is kept."""
        next(self._pages, None)
        with told_to_the_host():
            return self._shelf.finish(page, output) if self._shelf else output

    def on_post_template(
        self, output_content: str, *, template_name: str, config: MkDocsConfig
    ) -> str:
        """Do the same for pages that no Markdown is behind, as for an address that is not there."""
        if self._shelf and template_name.endswith(".html"):
            return self._shelf.additions.finish(output_content)
        return output_content

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Read the finished site back and stop when a page lacks what it must say."""
        self.progress.tell("other languages and proof")
        if self._shelf:
            log.info("%s", self._shelf.close())
        with told_to_the_host():
            faults = self._parts.collect(Path(config.site_dir))
            self._clear()
            if self._edition is None or self._is_preview:
                return
            if not stop_the_build(faults, config):  # else links to what wasn't built were told
                faults += _prove(self._edition, config, self._shelf, self.order)
        if stop_the_build(faults, config):
            # Nobody may hand out what lost a caution, or names people.
            clean_directory(config.site_dir)
        self._report(faults, config)

    def on_build_error(self, *, error: Exception) -> None:
        """Leave no cards behind in the machine's temporary folder."""
        self._clear()

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[..., None]
    ) -> LiveReloadServer:
        """Watch the tool's own templates besides the course."""
        server.watch(str(find_templates()))
        Glance(config, lambda: (self._edition, self._shelf)).attach(server, builder)
        return server

    def _clear(self) -> None:
        self._parts.close()
        if self._cards:
            self._cards.cleanup()
            self._cards = None

    def _report(self, findings: Iterable[Finding], config: MkDocsConfig) -> None:
        """Log findings, or stop with all of them at once when they stand in the way."""
        found = tuple(findings)
        if stop_the_build(found, config) and not self._is_preview:
            self.stopped_by = found
            raise PluginError("\n".join(str(finding) for finding in found))
        for finding in found:
            log.info("%s", finding)


def _make_edition(
    looked: Looked, papers: Sequence[str], *, directory_urls: bool, has_proof: bool
) -> Edition:
    """Make the pages of a course that was just read, with what they were made from."""
    edition = make_edition(
        looked.reading,
        looked.content,
        papers,
        directory_urls=directory_urls,
        has_proof=has_proof,
        shelf=open_shelf(looked.project),
    )
    return replace(edition, sources=looked.sources)


def _tell_log() -> Progress:
    return Stages(Lines(log.info).show)


def _look_at_order(course: Course, nav: Navigation) -> tuple[Finding, ...]:
    """Return which lessons a navigation shows before what they build on."""
    lessons = {lesson_page(lesson): lesson.id for lesson in course.lessons}
    paths = [page.file.src_uri for page in nav.pages]
    shown = [lessons[path] for path in paths if path in lessons]
    return tuple(find_out_of_order(course, shown))


def _prove(
    edition: Edition, config: MkDocsConfig, shelf: PageShelf | None, order: Order
) -> tuple[Finding, ...]:
    """Return what is wrong with a finished site; give it what hosts read when all is well."""
    project = Path(config.config_file_path).parent
    files = shelf.files if shelf else FolderFiles(Path(config.site_dir))
    if edition.site is None:
        return ()
    proved = prove_site(edition, edition.site, files, project, for_disk=order.is_for_disk)
    if stop_the_build(proved.faults, config):
        return proved.faults
    address = config.site_url or ""
    return (*proved.faults, *finish_site(edition, files, project, address, proved))


def build_site(
    order: Order, folder: Path, progress: Progress | None = None, looked: Looked | None = None
) -> tuple[Finding, ...]:
    """Build a project's site into a folder; return the findings that stopped it, or none.

    What was ``looked`` at isn't read again. A site for a disk names each page's file in its
    links, since nobody serves folders there.

    Raises BuilderError where MkDocs itself refuses.
    """
    plugin: CoursePlugin | None = None
    try:
        with told_by_the_host(order.settings.parent):
            ways: dict[str, Any] = {"use_directory_urls": False} if order.is_for_disk else {}
            config = load_config(
                str(order.settings), site_dir=str(folder), strict=order.is_strict, **ways
            )
            plugin = next((p for p in config.plugins.values() if isinstance(p, CoursePlugin)), None)
            if plugin is None:
                raise BuilderError(f'"{order.settings}" doesn\'t use the plugin', _NAME_PLUGIN)
            plugin.order = order
            plugin.looked = looked
            plugin.progress = progress or plugin.progress
            if order.has_cards is not None:
                plugin.config.cards = order.has_cards
            command: Literal["build", "serve"] = "serve" if order.is_preview else "build"
            config.plugins.on_startup(command=command, dirty=False)
            build(config)
    except BuilderError:
        if plugin and plugin.stopped_by:
            return plugin.stopped_by
        raise
    finally:
        if plugin:
            plugin.progress = _tell_log()
            plugin.order = Order(Path())  # the host keeps its plugins for the next build
    return ()
