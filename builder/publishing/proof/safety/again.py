"""Proves a finished site again from its folder alone, and believes nothing it says of itself."""

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from builder import rules
from builder.errors import BuilderError, InvalidValueError
from builder.findings import Finding, Place, sort_findings
from builder.publishing.proof.safety.claims_check import AGAIN, HERE, find_false_claims
from builder.publishing.proof.safety.evidence import Artefact, LessonProof, Proof
from builder.publishing.proof.safety.file import PROOF_FILE, read_proof
from builder.publishing.proof.safety.fonts import find_strange_fonts, list_pdfs
from builder.publishing.proof.safety.look import look_at_strange
from builder.publishing.proof.safety.site_files import SiteFiles, list_site_files
from builder.publishing.proof.safety.source import Source, list_shapers
from builder.publishing.proof.safety.unseen import find_unseen, list_looks
from builder.work.bounded_share import share_bounded

_PUT_BACK = "put the file of the build back, or build the site again"


@dataclass(frozen=True, slots=True)
class ProvedAgain:
    """What a second look at a site came to."""

    findings: tuple[Finding, ...]
    lessons: int
    """In all languages."""
    artefacts: int
    """Pages, cards, packs and chapters that were read back."""
    digest: str
    """SHA-256 of the proof; empty where there is none."""


def prove_again(folder: Path, expected: str = "") -> ProvedAgain:
    """Read everything of a finished site that shows a lesson, and compare the rest with the proof.

    ``expected`` is the digest that a build told, if anybody kept it. Raises BuilderError where the
    folder is none.
    """
    files = list_site_files(folder)
    try:
        content = files.read(PROOF_FILE)
    except OSError:
        _refuse_no_site(files)
        fact = "the site has no proof of safety that can be read"
        return _fail(rules.PROOF_UNSOUND.at(HERE, fact, AGAIN))
    digest = hashlib.sha256(content).hexdigest()
    try:
        proof = _read_bounded(content)
    except InvalidValueError as error:
        fault = rules.PROOF_UNSOUND.at(HERE, error.fact, error.cure)
        return _fail(fault, *_compare_digests(expected, digest), digest=digest)
    findings = (
        *_compare_digests(expected, digest),
        *_compare_files(proof, files),
        *find_false_claims(proof, files.plain),
        *_find_unseen(proof, files),
    )
    count = sum(len(edition.lessons) for edition in proof.editions)
    artefacts = sum(1 for edition in proof.editions for _ in edition.list_artefacts())
    return ProvedAgain(sort_findings(findings), count, artefacts, digest)


def _read_bounded(content: bytes) -> Proof:
    """Read a proof that may be made to take all memory; InvalidValueError where it is none."""
    (found,) = share_bounded(_try_read, [content])
    if isinstance(found, Proof):
        return found
    raise InvalidValueError(*(found or ("it takes too long or too much memory to read", AGAIN)))


def _try_read(content: bytes) -> Proof | tuple[str, str] | None:
    """Return a proof, or the fact and the cure why it is none."""
    try:
        return read_proof(content)
    except InvalidValueError as error:
        return error.fact, error.cure
    except MemoryError:
        return None


def _fail(*findings: Finding, digest: str = "") -> ProvedAgain:
    return ProvedAgain(sort_findings(findings), 0, 0, digest)


def _refuse_no_site(files: SiteFiles) -> None:
    """Raise BuilderError where a folder holds no page at all: it was named by mistake."""
    if not any(name.endswith(".html") for name in files.plain):
        raise BuilderError(
            f'there is no finished site in "{files.folder}"',
            "make one with: tempoleaf build, or name the folder that holds its index.html",
        )


def _compare_digests(expected: str, digest: str) -> Iterator[Finding]:
    if expected and expected != digest:
        fact = f"its digest is {digest}, and not the one that was kept"
        yield rules.PROOF_CHANGED.at(HERE, fact, AGAIN)


def _compare_files(proof: Proof, files: SiteFiles) -> Iterator[Finding]:
    """Report what has changed, gone or come since the site was built."""
    for name, digest in proof.files.items():
        if name not in files.plain:
            if name not in files.strange:
                fact = "the file was there when the site was built, and is gone"
                yield rules.FILE_LOST.at(Place(name), fact, _PUT_BACK)
        elif _digest(files, name) != digest:
            fact = "the file isn't the one that was built"
            yield rules.FILE_CHANGED.at(Place(name), fact, _PUT_BACK)
    for name in sorted(files.plain - proof.files.keys() - {PROOF_FILE}):
        fact = "the file has come since the site was built"
        yield rules.FILE_ADDED.at(Place(name), fact, "take it out, or build the site with it")
    for name in files.strange:
        fact = "this is a link, or can't be opened, and a site has plain files alone"
        yield rules.FILE_CHANGED.at(Place(name), fact, _PUT_BACK)


def _digest(files: SiteFiles, name: str) -> str:
    try:
        return files.digest(name)
    except OSError:
        return ""


def _find_unseen(proof: Proof, files: SiteFiles) -> Iterator[Finding]:
    """Read back everything that shows a lesson, and report what can't be read there."""
    source = Source(files.read, list_shapers(files.plain))
    looks = [look for edition in proof.editions for look in list_looks(edition)]
    seen = iter(look_at_strange(source, looks))
    for edition in proof.editions:
        own = [next(seen) for _ in edition.list_artefacts()]
        yield from find_unseen(edition, own, _locate, _PUT_BACK)
        yield from find_strange_fonts(files.read, list_pdfs(edition), is_ours=False)


def _locate(_lesson: LessonProof, artefact: Artefact, _name: str) -> Place:
    return Place(artefact.file)
