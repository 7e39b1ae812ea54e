"""The last steps of a site that a host has written: it is read back, and gets what hosts read."""

from dataclasses import dataclass
from pathlib import Path

from builder.findings import Finding
from builder.publishing.pages.links import Site
from builder.publishing.proof.privacy.faults import find_private_faults
from builder.publishing.proof.safety.evidence import EditionProof
from builder.publishing.proof.safety.gather import SafetyReading, read_safety
from builder.publishing.proof.safety.put_down import (
    put_down_page,
    put_down_part,
    put_down_proof,
    take_up_parts,
)
from builder.publishing.proof.site import find_site_faults
from builder.publishing.proof.sources import list_sources
from builder.publishing.site.crawlers import finish_for_crawlers
from builder.publishing.site.disk import is_left_out, write_search_script
from builder.publishing.site.edition import Edition, open_shelf
from builder.publishing.site.offline import write_worker
from builder.publishing.site.policy import HEADERS, HEADERS_FILE, NO_JEKYLL
from builder.work.bundle import open_bundle
from builder.work.folder_files import FolderFiles
from builder.work.kept import open_kept
from builder.work.whole import mark_folder


@dataclass(frozen=True, slots=True)
class ProvedSite:
    """What was read back of a finished site."""

    faults: tuple[Finding, ...]
    safety: SafetyReading
    parts: tuple[EditionProof, ...]
    """The same of the sites in other languages."""


def prove_site(
    edition: Edition, site: Site, files: FolderFiles, project: Path, *, for_disk: bool
) -> ProvedSite:
    """Find what is broken or missing in a finished site, and write down where cautions stand."""
    parts = tuple(take_up_parts(files.folder, site.course.translations))
    name = f"{site.course.settings.language} {for_disk}"
    kept = open_kept(project, f"sightings {name}")
    safety = read_safety(site, files, edition.content, edition.sources, kept)
    if site.has_proof:
        put_down_page(site, files, safety)
    sources = list_sources(site, project, edition.content, edition.written)
    shelf = open_bundle(open_shelf(project), "proof", site.course.settings.language, str(for_disk))
    faults = find_site_faults(
        sources, files, for_disk=for_disk, shelf=shelf, excerpts=edition.excerpts
    )
    shelf.save()
    return ProvedSite((*safety.faults, *faults), safety, parts)


def finish_site(
    edition: Edition, files: FolderFiles, project: Path, address: str, proved: ProvedSite
) -> tuple[Finding, ...]:
    """Write what hosts read and the proof, then look through all for what belongs to people.

    A site in another language is looked through with the whole, of which it is a part.
    """
    if edition.site is None:
        return ()
    write_host_files(edition.site, files, address)
    if edition.site.is_translation:
        put_down_part(files, proved.safety)
        return ()
    for_others = () if edition.site.directory_urls else filter(is_left_out, files.list_names())
    put_down_proof(files, proved.safety, proved.parts, tuple(for_others))
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
