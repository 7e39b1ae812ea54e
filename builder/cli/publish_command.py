"""`tempoleaf publish`: say what a host needs, and follow every link of the finished site."""

from pathlib import Path
from typing import Annotated

import typer

from builder.errors import BuilderError
from builder.findings import spell_out
from builder.publishing.proof.finished.faults import (
    count_followed,
    find_finished_faults,
    gather,
)
from builder.publishing.proof.finished.needs import list_needs, write_needs
from builder.publishing.proof.finished.site import read_finished_site
from builder.reading.addresses import read_declared

WORKFLOWS = {
    "GitHub Pages": ".github/workflows/publish.yml",
    "GitLab Pages": ".gitlab-ci.yml",
}
"""Hosts that can build a course themselves, with the file of a new course that tells them how."""


def publish(
    site: Annotated[Path, typer.Argument(help="The folder of the finished site.")] = Path("site"),
    *,
    check: Annotated[
        bool, typer.Option("--check", help="Say what a host needs, and follow every link.")
    ] = False,
) -> None:
    """Look whether a finished site can go online; tempoleaf itself uploads nothing.

    With --check it says what a host of plain files needs for this site, and follows every link of
    its pages, PDFs, books and lists, without the network and without the course's sources. If the
    sources lie beside the folder, their addresses are compared too. Exit code 0 when every link
    leads somewhere, 1 on findings, 2 when it couldn't run. Without --check nothing is looked at
    or sent, and the exit code is 2.
    """
    if not check:
        raise BuilderError(_word_ways(), "look at the site first with: tempoleaf publish --check")
    finished = read_finished_site(site)
    findings = find_finished_faults(finished, read_declared(site.resolve().parent))
    print(f"What a host needs for {spell_out(str(site))}:")
    print(_spell_out_lines(write_needs(list_needs(finished, findings))))
    told = gather(findings)
    for finding in told:
        print(finding)
    read = count_followed(finished)
    if told:
        print(f"{len(told)} findings in {read}: mend them before you upload.")
        raise typer.Exit(1)
    print(f"Every link in {read} leads somewhere. Upload the whole folder.")


def _spell_out_lines(text: str) -> str:
    """Keep lines as they are and spell out what a terminal would act on."""
    return "\n".join(map(spell_out, text.split("\n")))


def _word_ways() -> str:
    ways = " and ".join(f"{path} for {host}" for host, path in WORKFLOWS.items())
    return (
        "tempoleaf uploads nothing itself: put everything in site/ on any host of plain files, or "
        f"let a host build it by the files that a new course brings, {ways}"
    )
