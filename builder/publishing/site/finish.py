"""The last steps of a site that a host has written: it is read back, and gets what hosts read."""

from pathlib import Path

from builder.findings import Finding
from builder.publishing.pages.links import Site
from builder.publishing.proof.privacy.faults import find_private_faults
from builder.publishing.proof.site import find_site_faults
from builder.publishing.proof.sources import list_sources
from builder.publishing.site.crawlers import finish_for_crawlers
from builder.publishing.site.disk import write_search_script
from builder.publishing.site.edition import Edition, open_shelf
from builder.publishing.site.offline import write_worker
from builder.publishing.site.policy import HEADERS, HEADERS_FILE, NO_JEKYLL
from builder.work.whole import mark_folder


def prove_site(
    edition: Edition, site: Site, folder: Path, project: Path, *, for_disk: bool
) -> tuple[Finding, ...]:
    """Return what is broken or missing in a finished site."""
    sources = list_sources(site, project, edition.content, edition.written)
    return find_site_faults(
        sources, folder, for_disk=for_disk, shelf=open_shelf(project), excerpts=edition.excerpts
    )


def finish_site(edition: Edition, folder: Path, project: Path, address: str) -> tuple[Finding, ...]:
    """Write what hosts read, then look through every file for what belongs to people.

    A site in another language is looked through with the whole, of which it is a part.
    """
    if edition.site is None:
        return ()
    write_host_files(edition.site, folder, address)
    if edition.site.is_translation:
        return ()
    return find_private_faults(project, folder, content=edition.content, shelf=open_shelf(project))


def write_host_files(site: Site, folder: Path, address: str) -> None:
    """Write what hosts, crawlers and browsers read besides pages; ``address`` may be empty."""
    mark_folder(folder)
    if not site.is_translation:
        (folder / HEADERS_FILE).write_text(HEADERS, encoding="utf-8")
        (folder / NO_JEKYLL).touch()
    if not site.directory_urls:
        write_search_script(folder)
    others = tuple(site.course.translations)
    finish_for_crawlers(folder, address, others)
    write_worker(folder, others=others, whole=site.whole)
