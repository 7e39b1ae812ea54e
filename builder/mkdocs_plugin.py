"""The MkDocs plugin: hands the course's pages to the host. A thin shell without logic."""

import logging
import os
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from io import StringIO
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, Literal

from mkdocs.commands.build import build
from mkdocs.config import config_options, load_config
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException, PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import clean_directory
from mkdocs.utils.templates import TemplateContext

from builder.checked.course import find_all, read_kept_course
from builder.checks.order import find_out_of_order
from builder.errors import BuilderError
from builder.findings import Finding, sort_findings, stops_publishing
from builder.mkdocs_files import Drawings, swap_files
from builder.mkdocs_parts import Order, Parts
from builder.mkdocs_settings import settle
from builder.publishing.pages.asides import put_back
from builder.publishing.pages.links import Site, lesson_page
from builder.publishing.site.cards import make_site_cards
from builder.publishing.site.edition import Edition, make_edition
from builder.publishing.site.files import find_own_file_faults
from builder.publishing.site.finish import finish_site, prove_site
from builder.publishing.site.frame import mend_frame
from builder.publishing.site.policy import add_policy
from builder.resources import find_templates
from builder.sums.paper import PAPERS

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
        self._parts = Parts(self.order, (), build_site)
        self._is_preview = False
        self._edition: Edition | None = None
        self._drawings: Drawings = {}
        self._cards: TemporaryDirectory[str] | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Remember whether pages are published or only looked at."""
        self._is_preview = command == "serve"

    @event_priority(100)  # before the search, which asks the theme for its language
    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check the course, stop if it may not be published, and settle the host."""
        root = Path(config.config_file_path).parent
        content = os.path.relpath(config.docs_dir, root).replace(os.sep, "/")
        with _told_to_the_host():
            reading = read_kept_course(root, content)
        self.stopped_by = ()
        language = self.order.language
        found: tuple[Finding, ...] = ()
        if language:  # the original's build has looked at all languages
            reading = reading.in_language(language)
        else:
            checked = find_all(reading, root).findings
            every = (*checked, *find_own_file_faults(root, content))
            found = sort_findings(every)
        self._report(found, config)
        self._clear()
        order = replace(
            self.order,
            settings=Path(config.config_file_path),
            is_strict=bool(config.strict),
            has_cards=self.config.cards,
            is_preview=self._is_preview,
        )
        self._parts = Parts(order, reading.list_languages(), build_site)
        has_cards = self.config.cards and not self._is_preview
        self._edition = make_edition(
            reading,
            content,
            self.config.papers if has_cards else (),
            directory_urls=config.use_directory_urls,
            shown=found if self._is_preview else (),
        )
        with _told_to_the_host():
            self._cards, faults = _print_cards(self._edition.site, root)
        self._report(faults, config)
        settle(config, self._edition)
        return config

    @event_priority(50)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Swap the sources of lessons and notices for the finished pages."""
        printed = Path(self._cards.name) if self._cards else None
        self._drawings = swap_files(files, config, self._edition, printed)
        return files

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, files: Files) -> Navigation:
        """Look whether the navigation shows lessons in an order that can be learned."""
        site = self._edition.site if self._edition else None
        if site:
            lessons = {lesson_page(lesson): lesson.id for lesson in site.course.lessons}
            paths = [page.file.src_uri for page in nav.pages]
            shown = [lessons[path] for path in paths if path in lessons]
            self._report(find_out_of_order(site.course, shown), config)
        return nav

    def on_page_context(
        self, context: TemplateContext, *, page: Page, config: MkDocsConfig, nav: Navigation
    ) -> TemplateContext:
        """Tell the theme where the same page stands in other languages."""
        switch = self._edition.switch if self._edition else None
        told: Any = context  # the host's own type knows no names of ours
        told["other_languages"] = switch.list_others(page.file.src_uri) if switch else ()
        return context

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Put drawings back, and finish the page."""
        with _told_to_the_host():
            return self._finish(put_back(output, self._drawings.pop(page.file.src_uri, ())))

    def on_post_template(
        self, output_content: str, *, template_name: str, config: MkDocsConfig
    ) -> str:
        """Do the same for pages that no Markdown is behind, as for an address that is not there."""
        return self._finish(output_content) if template_name.endswith(".html") else output_content

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Read the finished site back and stop when a page lacks what it must say."""
        edition, folder, for_disk = self._edition, Path(config.site_dir), self.order.is_for_disk
        with _told_to_the_host():
            faults = self._parts.collect(folder)
        self._clear()
        if edition is None or edition.site is None or self._is_preview:
            return
        project = Path(config.config_file_path).parent
        with _told_to_the_host():
            if not _stops(faults, config):  # else links to what wasn't built would be told too
                faults += prove_site(edition, edition.site, folder, project, for_disk=for_disk)
            if not _stops(faults, config):
                faults += finish_site(edition, folder, project, config.site_url or "")
        if _stops(faults, config):
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
        return server

    def _finish(self, html: str) -> str:
        """Mend the theme's frame, and say what a page may load; the preview adds its own script."""
        mended = mend_frame(html)
        return mended if self._is_preview or not self.config.policy else add_policy(mended)

    def _clear(self) -> None:
        self._parts.close()
        if self._cards:
            self._cards.cleanup()
            self._cards = None

    def _report(self, findings: Iterable[Finding], config: MkDocsConfig) -> None:
        """Log findings, or stop with all of them at once when they stand in the way."""
        found = tuple(findings)
        if _stops(found, config) and not self._is_preview:
            self.stopped_by = found
            raise PluginError("\n".join(str(finding) for finding in found))
        for finding in found:
            log.info("%s", finding)


def _print_cards(
    site: Site | None, project: Path
) -> tuple[TemporaryDirectory[str] | None, tuple[Finding, ...]]:
    """Print what pages link to into a folder of its own, before the host empties its old site."""
    if not site or not site.papers:
        return None, ()
    folder = TemporaryDirectory(prefix="tempoleaf-")
    try:
        return folder, make_site_cards(site, Path(folder.name), project)
    except BaseException:
        folder.cleanup()
        raise


@contextmanager
def _told_to_the_host() -> Iterator[None]:
    """Pass on what stops a run as the host's own kind of error."""
    try:
        yield
    except BuilderError as error:
        raise PluginError(str(error)) from error


def _stops(findings: Iterable[Finding], config: MkDocsConfig) -> bool:
    """Tell whether any finding stands in the way of publishing."""
    return any(stops_publishing(finding, strict=bool(config.strict)) for finding in findings)


def build_site(order: Order, folder: Path) -> tuple[Finding, ...]:
    """Build a project's site into a folder; return the findings that stopped it, or none.

    A site for a disk names each page's file in its links, since nobody serves folders there.

    Raises BuilderError where MkDocs itself refuses.
    """
    words = StringIO()
    handler = logging.StreamHandler(words)
    handler.setLevel(logging.WARNING)
    logging.getLogger("mkdocs").addHandler(handler)
    plugin: CoursePlugin | None = None
    try:
        ways: dict[str, Any] = {"use_directory_urls": False} if order.is_for_disk else {}
        config = load_config(
            str(order.settings), site_dir=str(folder), strict=order.is_strict, **ways
        )
        plugin = next((p for p in config.plugins.values() if isinstance(p, CoursePlugin)), None)
        if plugin is None:
            raise BuilderError(f'"{order.settings}" doesn\'t use the plugin', _NAME_PLUGIN)
        plugin.order = order
        if order.has_cards is not None:
            plugin.config.cards = order.has_cards
        command: Literal["build", "serve"] = "serve" if order.is_preview else "build"
        config.plugins.on_startup(command=command, dirty=False)
        build(config)
    except MkDocsException as error:
        if plugin and plugin.stopped_by:
            return plugin.stopped_by
        said = words.getvalue().strip() or str(error)
        raise BuilderError(f"MkDocs stopped: {said}", "mend what it names") from error
    finally:
        logging.getLogger("mkdocs").removeHandler(handler)
        if plugin:
            plugin.order = Order(Path())  # the host keeps its plugins for the next build
    return ()
