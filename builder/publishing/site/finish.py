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
from builder.work.bundle import open_bundle
from builder.work.folder_files import FolderFiles
from builder.work.whole import mark_folder


def prove_site(
    edition: Edition, site: Site, files: FolderFiles, project: Path, *, for_disk: bool
) -> tuple[Finding, ...]:
    """Return what is broken or missing in a finished site."""
    sources = list_sources(site, project, edition.content, edition.written)
    shelf = open_bundle(open_shelf(project), "proof", site.course.settings.language, str(for_disk))
    faults = find_site_faults(
        sources, files, for_disk=for_disk, shelf=shelf, excerpts=edition.excerpts
    )
    shelf.save()
    return faults


def finish_site(
    edition: Edition, files: FolderFiles, project: Path, address: str
) -> tuple[Finding, ...]:
    """Write what hosts read, then look through every file for what belongs to people.

    A site in another language is looked through with the whole, of which it is a part.
    """
    if edition.site is None:
        return ()
    write_host_files(edition.site, files, address)
    if edition.site.is_translation:
        return ()
    shelf = open_bundle(open_shelf(project), "privacy", str(edition.site.directory_urls))
    faults = find_private_faults(project, files, content=edition.content, shelf=shelf)
    shelf.save()
    return faults


def write_host_files(site: Site, files: FolderFiles, address: str) -> None:
    """Write what hosts, crawlers and browsers read besides pages; ``address`` may be empty."""
    folder = files.folder
    mark_folder(folder)
    if not site.is_translation:
        (folder / HEADERS_FILE).write_text(HEADERS, encoding="utf-8")
        (folder / NO_JEKYLL).touch()
    if not site.directory_urls:
        write_search_script(folder)
    others = tuple(site.course.translations)
    finish_for_crawlers(folder, address, others)
    write_worker(files, others=others, whole=site.whole)
