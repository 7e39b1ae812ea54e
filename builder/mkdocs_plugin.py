"""The MkDocs plugin: hands the course's pages to the host. A thin shell without logic."""

import logging
import os
from collections.abc import Callable, Iterable
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
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils import clean_directory

from builder.checks.order import find_out_of_order
from builder.checks.run import check_course
from builder.errors import BuilderError
from builder.findings import Finding, sort_findings, stops_publishing
from builder.publishing.pages.assets import FAVICON, FILE_WORKER, SCRIPTS, STYLES
from builder.publishing.pages.links import Site, lesson_page
from builder.publishing.pages.templates import escape_for_host
from builder.publishing.proof.site import find_site_faults
from builder.publishing.proof.sources import list_sources
from builder.publishing.site.cards import make_site_cards
from builder.publishing.site.disk import write_search_script
from builder.publishing.site.edition import Edition, make_edition
from builder.publishing.site.files import find_links_outside, lies_within
from builder.publishing.site.frame import mend_frame
from builder.publishing.site.host import LINK_RULES, PALETTE, THEME_FEATURES, is_source, word_foot
from builder.publishing.site.offline import write_worker
from builder.publishing.site.policy import HEADERS, HEADERS_FILE, add_policy
from builder.reading.course_folder import read_course
from builder.resources import find_templates
from builder.sums.paper import PAPERS
from builder.work.whole import mark_folder

_QUIET = InclusionLevel.NOT_IN_NAV
"""Nobody has to name a generated page in a navigation of their own."""
_NAME_PLUGIN = "add tempoleaf to the list under plugins"
_THEME_FAVICON = "assets/images/favicon.png"
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
        self.is_for_disk = False
        self._is_preview = False
        self._edition: Edition | None = None
        self._cards: TemporaryDirectory[str] | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Remember whether pages are published or only looked at."""
        self._is_preview = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check the course, stop if it may not be published, and settle the host."""
        root = Path(config.config_file_path).parent
        content = os.path.relpath(config.docs_dir, root).replace(os.sep, "/")
        try:
            reading = read_course(root, content)
        except BuilderError as error:
            raise PluginError(str(error)) from error
        self.stopped_by = ()
        checked = check_course(reading.course) if reading.course else ()
        outside = find_links_outside(root, content)
        found = sort_findings((*reading.findings, *checked, *outside))
        self._report(found, config)
        has_cards = self.config.cards and not self._is_preview
        self._edition = make_edition(
            reading,
            content,
            self.config.papers if has_cards else (),
            directory_urls=config.use_directory_urls,
            shown=found if self._is_preview else (),
        )
        self._make_cards(self._edition.site, config)
        _settle(config, self._edition)
        return config

    @event_priority(50)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Swap the sources of lessons and notices for the finished pages."""
        made = self._edition.files if self._edition else {}
        docs = Path(config.docs_dir)
        for file in tuple(files):
            is_foreign = file.src_dir == config.docs_dir and not lies_within(
                docs / file.src_uri, docs
            )
            if is_source(file.src_uri) or file.src_uri in made or is_foreign:
                files.remove(file)
        for path, content in made.items():
            files.append(File.generated(config, path, content=content, inclusion=_QUIET))
        if self._cards:
            folder = Path(self._cards.name)
            for made_file in sorted(path for path in folder.rglob("*") if path.is_file()):
                name = made_file.relative_to(folder).as_posix()
                files.append(File.generated(config, name, abs_src_path=str(made_file)))
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

    def on_post_page(self, output: str, *, page: Page, config: MkDocsConfig) -> str:
        """Mend the theme's frame, and say what a page may load; the preview adds its own script."""
        return self._finish(output)

    def on_post_template(
        self, output_content: str, *, template_name: str, config: MkDocsConfig
    ) -> str:
        """Do the same for pages that no Markdown is behind, as for an address that is not there."""
        return self._finish(output_content) if template_name.endswith(".html") else output_content

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Read the finished site back and stop when a page lacks what it must say."""
        self._clear()
        edition = self._edition
        if edition and edition.site and not self._is_preview:
            folder = Path(config.site_dir)
            mark_folder(folder)
            (folder / HEADERS_FILE).write_text(HEADERS, encoding="utf-8")
            project = Path(config.config_file_path).parent
            sources = list_sources(edition.site, project, edition.content, edition.written)
            faults = find_site_faults(sources, folder, for_disk=self.is_for_disk)
            if self._stops(faults, config):
                clean_directory(config.site_dir)  # nobody may hand out a site that lost a caution
            else:
                write_worker(folder)
            if not config.use_directory_urls:
                write_search_script(folder)
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

    def _make_cards(self, site: Site | None, config: MkDocsConfig) -> None:
        """Print the cards and packs that pages link to, before the host empties its old site."""
        if not site or not site.papers:
            return
        self._cards = TemporaryDirectory(prefix="tempoleaf-")
        project = Path(config.config_file_path).parent
        try:
            faults = make_site_cards(site, Path(self._cards.name), project)
        except BuilderError as error:
            raise PluginError(str(error)) from error
        self._report(faults, config)

    def _finish(self, html: str) -> str:
        mended = mend_frame(html)
        return mended if self._is_preview or not self.config.policy else add_policy(mended)

    def _clear(self) -> None:
        if self._cards:
            self._cards.cleanup()
            self._cards = None

    def _report(self, findings: Iterable[Finding], config: MkDocsConfig) -> None:
        """Log findings, or stop with all of them at once when they stand in the way."""
        found = tuple(findings)
        if self._stops(found, config) and not self._is_preview:
            self.stopped_by = found
            raise PluginError("\n".join(str(finding) for finding in found))
        for finding in found:
            log.info("%s", finding)

    def _stops(self, findings: Iterable[Finding], config: MkDocsConfig) -> bool:
        """Tell whether any finding stands in the way of publishing."""
        return any(stops_publishing(finding, strict=bool(config.strict)) for finding in findings)


def build_site(
    settings: Path, folder: Path, *, strict: bool, for_disk: bool = False
) -> tuple[Finding, ...]:
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
        ways: dict[str, Any] = {"use_directory_urls": False} if for_disk else {}
        config = load_config(str(settings), site_dir=str(folder), strict=strict, **ways)
        plugin = next((p for p in config.plugins.values() if isinstance(p, CoursePlugin)), None)
        if plugin is None:
            raise BuilderError(f'"{settings}" doesn\'t use the plugin', _NAME_PLUGIN)
        plugin.is_for_disk = for_disk
        config.plugins.on_startup(command="build", dirty=False)
        build(config)
    except MkDocsException as error:
        if plugin and plugin.stopped_by:
            return plugin.stopped_by
        said = words.getvalue().strip() or str(error)
        raise BuilderError(f"MkDocs stopped: {said}", "mend what it names") from error
    finally:
        logging.getLogger("mkdocs").removeHandler(handler)
    return ()


def _settle(config: MkDocsConfig, edition: Edition) -> None:
    """Give the host what the pages need; what the site's own settings say goes first."""
    config.extra_css[:0] = STYLES
    config.extra_javascript[:0] = SCRIPTS
    config.nav = config.nav or edition.nav
    config.site_name = escape_for_host(config.site_name)
    for rule in LINK_RULES:
        setattr(config.validation.links, rule, logging.WARNING)
    if edition.site:
        settings = edition.site.course.settings
        config.site_description = config.site_description or escape_for_host(settings.summary)
        if settings.address and not config.site_url:
            config.site_url = f"{settings.address.rstrip('/')}/"
        config.copyright = config.copyright or word_foot(settings)
    if config.theme.name == "material":
        _settle_theme(config)


def _settle_theme(config: MkDocsConfig) -> None:
    theme = config.theme
    theme.dirs.insert(1 if theme.custom_dir else 0, str(find_templates() / "theme"))
    theme["font"] = False
    if not config.use_directory_urls:
        config.extra["polyfills"] = [*config.extra.get("polyfills", ()), FILE_WORKER]
    if theme.get("favicon") == _THEME_FAVICON:
        theme["favicon"] = FAVICON
    theme["palette"] = theme.get("palette") or [dict(choice) for choice in PALETTE]
    theme["features"] = theme.get("features") or list(THEME_FEATURES)
