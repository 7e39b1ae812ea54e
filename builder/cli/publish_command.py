"""`tempoleaf publish`: say what a host needs, and follow every link of the finished site."""

from pathlib import Path
from typing import Annotated

import typer

from builder.errors import BuilderError
from builder.findings import spell_out, stops_publishing
from builder.publishing.proof.finished.faults import (
    count_followed,
    find_finished_faults,
    gather,
)
from builder.publishing.proof.finished.needs import list_needs, write_needs
from builder.publishing.proof.finished.site import read_finished_site
from builder.publishing.proof.privacy.faults import (
    find_private_faults,
    find_programs,
    say_searched,
)
from builder.reading.addresses import read_declared
from builder.work.folder_files import FolderFiles

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
    program: Annotated[
        list[Path] | None,
        typer.Option(help="A program folder whose people the site may not name."),
    ] = None,
) -> None:
    """Look whether a finished site can go online; tempoleaf itself uploads nothing.

    With --check it says what a host of plain files needs for this site, and follows every link of
    its pages, PDFs, books and lists, without the network and without the course's sources. If the
    sources lie beside the folder, their addresses are compared too, and every file is read for
    what belongs to people of a program folder beside it, or of one that --program gives. Exit
    code 0 when every link leads somewhere, 1 on findings, 2 when it couldn't run. Without --check
    nothing is looked at or sent, and the exit code is 2.
    """
    if not check:
        raise BuilderError(_word_ways(), "look at the site first with: tempoleaf publish --check")
    finished = read_finished_site(site)
    beside = site.resolve().parent
    findings = find_finished_faults(finished, read_declared(beside))
    print(f"What a host needs for {spell_out(str(site))}:")
    print(_spell_out_lines(write_needs(list_needs(finished, findings))))
    folders = find_programs(beside, program)
    told = (*gather(findings), *find_private_faults(beside, FolderFiles(site), folders))
    for finding in told:
        print(finding)
    read = count_followed(finished)
    print(say_searched(folders))
    if any(stops_publishing(finding, strict=True) for finding in told):
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
