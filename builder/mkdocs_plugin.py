"""The MkDocs plugin: hands the course's pages to the host. A thin shell without logic."""

import logging
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Literal

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin, event_priority, get_plugin_logger
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation

from builder.checks.order import find_out_of_order
from builder.checks.run import check_course
from builder.errors import BuilderError
from builder.findings import Finding, sort_findings, stops_publishing
from builder.publishing.site_assets import FAVICON, SCRIPTS, STYLES
from builder.publishing.site_edition import Edition, make_edition
from builder.publishing.site_host import PALETTE, THEME_FEATURES, is_source
from builder.publishing.site_links import lesson_page
from builder.publishing.site_read_back import find_site_faults
from builder.reading.course_folder import read_course
from builder.resources import find_templates
from builder.sums.paper import PAPERS

_THEME_FAVICON = "assets/images/favicon.png"
log = get_plugin_logger(__name__)


class CourseConfig(Config):
    """What a site's own settings may say about the course."""

    cards = config_options.Type(bool, default=True)
    """Whether a build makes cards; the preview never does."""
    papers = config_options.ListOfItems(config_options.Choice(tuple(PAPERS)), default=list(PAPERS))


class CoursePlugin(BasePlugin[CourseConfig]):
    """Checks the course before MkDocs reads a page, then gives MkDocs the pages."""

    def __init__(self) -> None:
        self.findings: tuple[Finding, ...] = ()
        """What stood in the way of the last build."""
        self._is_preview = False
        self._edition: Edition | None = None

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:
        """Remember whether pages are published or only looked at."""
        self._is_preview = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read and check the course, stop if it may not be published, and settle the host."""
        root = Path(config.config_file_path).parent
        content = Path(config.docs_dir).relative_to(root).as_posix()
        try:
            reading = read_course(root, content)
        except BuilderError as error:
            raise PluginError(str(error)) from error
        checked = check_course(reading.course) if reading.course else ()
        found = sort_findings((*reading.findings, *checked))
        self._report(found, config)
        has_cards = self.config.cards and not self._is_preview
        self._edition = make_edition(
            reading,
            content,
            self.config.papers if has_cards else (),
            directory_urls=config.use_directory_urls,
            shown=found if self._is_preview else (),
        )
        _settle(config, self._edition)
        return config

    @event_priority(50)
    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Swap the sources of lessons and notices for the finished pages."""
        made = self._edition.files if self._edition else {}
        for file in tuple(files):
            if is_source(file.src_uri) or file.src_uri in made:
                files.remove(file)
        for path, content in made.items():
            inclusion = InclusionLevel.NOT_IN_NAV
            files.append(File.generated(config, path, content=content, inclusion=inclusion))
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

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Read the finished site back and stop when a page lacks what it must say."""
        edition = self._edition
        if edition and edition.site and not self._is_preview:
            folder = Path(config.site_dir)
            faults = find_site_faults(edition.site, folder, edition.written, edition.content)
            self._report(faults, config)

    def on_serve(
        self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[..., None]
    ) -> LiveReloadServer:
        """Watch the tool's own templates besides the course."""
        server.watch(str(find_templates()))
        return server

    def _report(self, findings: Iterable[Finding], config: MkDocsConfig) -> None:
        """Log findings, or stop with all of them at once when they stand in the way."""
        self.findings = tuple(findings)
        stops = [stops_publishing(f, strict=bool(config.strict)) for f in self.findings]
        if any(stops) and not self._is_preview:
            raise PluginError("\n".join(str(finding) for finding in self.findings))
        for finding, is_grave in zip(self.findings, stops, strict=True):
            (log.warning if is_grave else log.info)("%s", finding)


def _settle(config: MkDocsConfig, edition: Edition) -> None:
    """Give the host what the pages need; what the site's own settings say goes first."""
    config.extra_css[:0] = STYLES
    config.extra_javascript[:0] = SCRIPTS
    config.nav = config.nav or edition.nav
    for rule in ("anchors", "not_found", "absolute_links", "unrecognized_links"):
        setattr(config.validation.links, rule, logging.WARNING)
    if edition.site:
        settings = edition.site.course.settings
        config.site_description = config.site_description or settings.summary
        config.site_url = config.site_url or f"{settings.address.rstrip('/')}/"
        config.copyright = config.copyright or f"{settings.studio.name}, {settings.studio.contact}"
    if config.theme.name == "material":
        _settle_theme(config)


def _settle_theme(config: MkDocsConfig) -> None:
    theme = config.theme
    theme.dirs.insert(1 if theme.custom_dir else 0, str(find_templates() / "theme"))
    theme["font"] = False
    theme["favicon"] = FAVICON if theme.get("favicon") in (None, _THEME_FAVICON) else theme["favicon"]
    theme["palette"] = theme.get("palette") or [dict(choice) for choice in PALETTE]
    theme["features"] = theme.get("features") or list(THEME_FEATURES)
