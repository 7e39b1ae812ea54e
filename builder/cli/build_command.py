"""`tempoleaf build`: check the course, make the site with its cards, and prove both."""

import os
import sys
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from time import perf_counter
from typing import Annotated

import typer

from builder.cli.cluster_option import ClusterOption
from builder.cli.press_note import tell_press
from builder.cli.progress_bar import QuietOption, show_progress
from builder.cli.serve_command import find_settings
from builder.errors import BuilderError
from builder.findings import Finding, stops_publishing
from builder.mkdocs_parts import Order
from builder.mkdocs_reading import Looked, look
from builder.publishing.pages.links import BOOK
from builder.publishing.proof.privacy.faults import find_private_faults
from builder.publishing.proof.safety.file import PROOF_FILE, digest_proof
from builder.publishing.site.cards import make_site_cards
from builder.publishing.site.disk import zip_site
from builder.publishing.site.edition import make_edition, open_shelf
from builder.publishing.site.finished_pages import PAGE, SPARE
from builder.publishing.site.host import DOCS
from builder.publishing.site.plain import Host, write_plain
from builder.report.summary import summarise
from builder.report.text import write_text
from builder.sums.paper import PAPERS
from builder.work.folder_files import FolderFiles
from builder.work.progress import Progress
from builder.work.spare import lay_by
from builder.work.tree import lies_within
from builder.work.whole import replace_folder, work_beside

_CONTENT = "content"


def build(  # noqa: PLR0913  # each is an option of the command
    project: Annotated[Path, typer.Argument(help="The folder that holds content/.")] = Path(),
    *,
    strict: Annotated[bool, typer.Option("--strict", help="Let warnings stop it too.")] = False,
    site: Annotated[
        Path | None, typer.Option(help="Where the site goes; site/ in the project if left out.")
    ] = None,
    disk: Annotated[
        Path | None,
        typer.Option("--zip", help="Write a zip too, to be opened from a disk by double click."),
    ] = None,
    plain: Annotated[
        Path | None,
        typer.Option(help="Write plain Markdown and host settings here instead of a site."),
    ] = None,
    host: Annotated[
        Host, typer.Option(help="The generator that shall take the plain pages.")
    ] = Host.MKDOCS,
    cluster: ClusterOption = "",
    quiet: QuietOption = False,
) -> None:
    """Check the course, then build its website with every card and pack.

    The new site takes the old one's place only when all of it is proved: links, anchors,
    cautions, steps. Exit code 0 when it stands, 1 when findings stopped it, 2 when it couldn't
    run.
    """
    if disk and plain:
        raise BuilderError("--zip and --plain are given together", "leave one of them out")
    started = perf_counter()
    target = plain or site or project / "site"
    if lies_within(target, project / _CONTENT):
        raise BuilderError(f'"{target}" is where the lessons are', "give a folder outside content/")
    with show_progress(quiet=quiet) as progress:
        looked = _look(project, progress, strict=strict)
        yard = _Yard(looked, strict, cluster, progress)
        counts = yard.write_plain(target, host) if plain else yard.build(target)
        print(f"{counts} stand in {target}, made in {perf_counter() - started:.1f} s.")
        tell_press()
        if plain is None:
            _tell_where(target)
        if disk:
            yard.zip(disk)


def _look(project: Path, progress: Progress, *, strict: bool) -> Looked:
    """Read and check the course; stop where it may not be published."""
    progress.tell("reading and checking")
    looked = look(project, _CONTENT)
    progress.tell("")
    if looked.findings:
        summary = summarise(looked.findings, looked.lessons)
        print(write_text(looked.findings, summary), flush=True)
    _stop_on(looked.findings, strict=strict)
    return looked


@dataclass(frozen=True, slots=True)
class _Yard:
    """What is built of a course, how, and who is told how far it is."""

    looked: Looked
    strict: bool
    cluster: str
    progress: Progress

    def build(self, target: Path) -> str:
        """Build the site as a whole, and count what is in it."""
        spare = self.looked.project / SPARE
        with replace_folder(target, leave=partial(lay_by, spare=spare, ending=PAGE)) as fresh:
            self._tell_faults(self._build_site(fresh, spare))
            return _count(fresh, PAGE)

    def write_plain(self, target: Path, host: Host) -> str:
        """Write plain Markdown as a whole, and count what is in it."""
        with replace_folder(target) as fresh:
            self._tell_faults(self._write_plain(fresh, host))
            return _count(fresh, ".md")

    def zip(self, target: Path) -> None:
        """Build the site once more for a disk, and put it into a zip that is whole or not there."""
        with work_beside(target) as beside:
            site, draft = beside / "site", beside / "draft.zip"
            faults = self._build_site(site, is_for_disk=True)
            self.progress.tell("")
            self.looked.refuse_changed()
            if faults:
                print("\n".join(str(fault) for fault in faults), flush=True)
                raise BuilderError("no zip was made", "mend what is named above")
            count = zip_site(site, draft, target.stem)
            draft.replace(target)
        print(f"{count} files stand in {target}: unpack it and open {target.stem}/index.html.")

    def _build_site(
        self, folder: Path, spare: Path | None = None, *, is_for_disk: bool = False
    ) -> tuple[Finding, ...]:
        os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")
        from builder.mkdocs_plugin import build_site  # noqa: PLC0415  # the host loads slowly

        settings = find_settings(self.looked.project)
        order = Order(
            settings, self.strict, is_for_disk=is_for_disk, cluster=self.cluster, spare=spare
        )
        return build_site(order, folder, self.progress, self.looked)

    def _write_plain(self, folder: Path, host: Host) -> tuple[Finding, ...]:
        project, shelf = self.looked.project, open_shelf(self.looked.project)
        edition = make_edition(self.looked.reading, _CONTENT, tuple(PAPERS), shelf=shelf)
        if edition.site is None or edition.excerpts is None:
            return ()
        write_plain(edition.site, edition, project / _CONTENT, folder, host)
        docs, cluster = folder / DOCS, self.cluster
        faults = make_site_cards(
            edition.excerpts, docs, project, cluster=cluster, progress=self.progress
        )
        return (*faults, *find_private_faults(project, FolderFiles(folder), shelf=shelf))

    def _tell_faults(self, faults: tuple[Finding, ...]) -> None:
        """Tell what stands in the way and stop for it; changed sources come first."""
        self.progress.tell("")
        self.looked.refuse_changed()
        if faults:
            print("\n".join(str(fault) for fault in faults), flush=True)
        _stop_on(faults, strict=self.strict)


def _tell_where(site: Path) -> None:
    print("Every link, caution and step in it was read back and found.")
    if (site / BOOK).is_file():
        print(f"The course as a book: {site / BOOK}")
    print(f"Digest of {site / PROOF_FILE}: {digest_proof(site)}")
    print(f"Look at it: {sys.executable} -m http.server --directory {site}")
    print(f"See what a web host needs for it: tempoleaf publish --check {site}")


def _stop_on(findings: Sequence[Finding], *, strict: bool) -> None:
    """End with exit code 1 when a finding stands in the way."""
    if any(stops_publishing(finding, strict=strict) for finding in findings):
        print("Nothing was published; what stood there before still stands.", flush=True)
        raise typer.Exit(1)


def _count(folder: Path, pages: str) -> str:
    """Count what was made by kind."""
    names = FolderFiles(folder).list_names()
    made = [sum(name.endswith(ending) for name in names) for ending in (pages, ".pdf")]
    return f"{made[0]} pages and {made[1]} PDFs"
