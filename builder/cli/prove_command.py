"""`tempoleaf prove`: read every caution of a finished site back, and see that nothing changed."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.finding_format import Format, print_findings
from builder.publishing.proof.safety.again import ProvedAgain, prove_again
from builder.publishing.proof.safety.file import PROOF_FILE, parse_digest
from builder.report.counted import count
from builder.report.summary import summarise


def prove(
    site: Annotated[Path, typer.Argument(help="The folder of the finished site.")] = Path("site"),
    *,
    digest: Annotated[
        str, typer.Option(help="The digest that the build printed, to compare with.")
    ] = "",
    form: Annotated[
        Format, typer.Option("--format", help="What to print the findings as.")
    ] = Format.TEXT,
) -> None:
    """Prove a finished site again, from its folder alone and without the lessons.

    Every page, card, pack and chapter is read back for the cautions that its lesson calls for;
    every file is compared with the site's own proof.json. Whoever changed a file can have changed
    proof.json as well: give the digest that your build printed, and that is told too. Exit code 0
    when all is as it was built, 1 on findings, 2 when it couldn't run.
    """
    proved = prove_again(site, parse_digest(digest) if digest else "")
    summary = summarise(proved.findings, proved.lessons)
    more = {"digest": proved.digest, "artefacts": proved.artefacts}
    print_findings(form, proved.findings, summary, more)
    if form is Format.TEXT:
        _tell(site, proved)
    raise typer.Exit(1 if proved.findings else 0)


def _tell(site: Path, proved: ProvedAgain) -> None:
    if proved.findings:
        print("Hand nothing out of this folder: build the site again.")
    else:
        shown = f"{proved.artefacts} pages, cards, packs and chapters"
        lessons = count(proved.lessons, "lesson")
        print(f"Every caution of {lessons} was read back from {shown}; no file was changed.")
    if proved.digest:
        print(f"Digest of {site / PROOF_FILE}: {proved.digest}")
