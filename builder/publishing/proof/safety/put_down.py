"""Puts a site's proof of safety into its folder: the page for people, and the file for all."""

from collections.abc import Collection, Iterator
from pathlib import Path

from builder import __version__
from builder.errors import BuilderError
from builder.publishing.pages.links import PROOF, Site
from builder.publishing.proof.safety.evidence import FORM, EditionProof, Proof
from builder.publishing.proof.safety.file import PROOF_FILE, read_proof, write_part, write_proof
from builder.publishing.proof.safety.gather import SafetyReading
from builder.publishing.proof.safety.proof_page import write_proof_page
from builder.work.folder_files import FolderFiles


def put_down_page(site: Site, files: FolderFiles, reading: SafetyReading) -> None:
    """Write the page, and an empty file in the place of the proof, to which it leads."""
    page = files.folder / site.file(PROOF)
    page.parent.mkdir(parents=True, exist_ok=True)
    html = write_proof_page(site, reading.edition, reading.sources, files.digest)
    page.write_text(html, encoding="utf-8", newline="\n")
    if not site.is_translation:
        (files.folder / PROOF_FILE).touch()


def put_down_part(files: FolderFiles, reading: SafetyReading) -> None:
    """Write what the site of another language found, for the whole site to take up."""
    content = write_part(reading.edition, reading.sources)
    (files.folder / PROOF_FILE).write_bytes(content)


def take_up_parts(folder: Path, tags: Collection[str]) -> Iterator[EditionProof]:
    """Yield what the sites of other languages found, and clear it away."""
    for tag in tags:
        file = folder / tag / PROOF_FILE
        if not file.is_file():
            cure = "build again, and report it as a fault of the tool if it stays"
            raise BuilderError(f'the site in "{tag}" brought no proof of safety', cure)
        (edition,) = read_proof(file.read_bytes()).editions
        file.unlink()
        yield edition.move_to(f"{tag}/")


def put_down_proof(
    files: FolderFiles,
    reading: SafetyReading,
    parts: Collection[EditionProof],
    left_out: Collection[str] = (),
) -> None:
    """Write the proof of a whole site, when every other file stands; some may be left out."""
    names = (name for name in files.list_names() if name not in {PROOF_FILE, *left_out})
    proof = Proof(
        form=FORM,
        tool=__version__,
        editions=(reading.edition, *parts),
        sources=reading.sources,
        files={name: files.digest(name) for name in names},
    )
    (files.folder / PROOF_FILE).write_bytes(write_proof(proof))
