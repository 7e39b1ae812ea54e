"""`tempoleaf build`: check the course, make the site with its cards, and prove both."""

import os
from collections.abc import Sequence
from pathlib import Path
from time import perf_counter
from typing import Annotated

import typer

from builder.cli.check_command import find_all
from builder.cli.serve_command import find_settings
from builder.findings import Finding, stops_publishing
from builder.publishing.site_edition import make_edition
from builder.publishing.site_plain import write_plain
from builder.reading.course_folder import CourseReading, read_course
from builder.report.text import write_text
from builder.work.whole import replace_folder

_CONTENT = "content"


def build(
    project: Annotated[Path, typer.Argument(help="The folder that holds content/.")] = Path(),
    *,
    strict: Annotated[bool, typer.Option("--strict", help="Let warnings stop it too.")] = False,
    site: Annotated[
        Path | None, typer.Option(help="Where the site goes; site/ in the project if left out.")
    ] = None,
    plain: Annotated[
        Path | None,
        typer.Option(help="Write plain Markdown and host settings here instead of a site."),
    ] = None,
) -> None:
    """Check the course, then build its website with every card and pack.

    The new site takes the old one's place only when all of it is proved: links, anchors,
    cautions, steps. Exit code 0 when it stands, 1 when findings stopped it, 2 when it couldn't
    run.
    """
    started = perf_counter()
    reading = read_course(project)
    findings, summary = find_all(reading)
    if findings:
        print(write_text(findings, summary), flush=True)
    _stop_on(findings, strict=strict)
    if plain is not None:
        with replace_folder(plain) as fresh:
            _write_plain(reading, project, fresh)
        print(f"Plain pages and host settings stand in {plain}")
        return
    target = site or project / "site"
    with replace_folder(target) as fresh:
        faults = _build_site(find_settings(project), fresh, strict=strict)
        if faults:
            print("\n".join(str(fault) for fault in faults), flush=True)
        _stop_on(faults, strict=strict)
        counts = _count(fresh)
    seconds = perf_counter() - started
    print(f"The site stands in {target}: {counts}, made and proved in {seconds:.1f} s.")
    print(f"Look at it: python3 -m http.server --directory {target} 8000, then localhost:8000")


def _build_site(settings: Path, folder: Path, *, strict: bool) -> tuple[Finding, ...]:
    os.environ.setdefault("NO_MKDOCS_2_WARNING", "1")
    from builder.mkdocs_plugin import build_site  # noqa: PLC0415  # the host takes long to load

    return build_site(settings, folder, strict=strict)


def _write_plain(reading: CourseReading, project: Path, folder: Path) -> None:
    edition = make_edition(reading, _CONTENT, ())
    if edition.site:
        write_plain(edition.site, edition, project / _CONTENT, folder)


def _stop_on(findings: Sequence[Finding], *, strict: bool) -> None:
    """End with exit code 1 when a finding stands in the way."""
    if any(stops_publishing(finding, strict=strict) for finding in findings):
        print("Nothing was published; what stood there before still stands.", flush=True)
        raise typer.Exit(1)


def _count(site: Path) -> str:
    """Count what was made by kind."""
    pages = sum(1 for _ in site.rglob("*.html"))
    cards = sum(1 for _ in site.rglob("*.pdf"))
    return f"{pages} pages, {cards} PDFs"
