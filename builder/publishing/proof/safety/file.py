"""The file ``proof.json`` in a finished site: written, read, and told apart by its digest."""

import hashlib
import json
import re
from collections.abc import Mapping
from pathlib import Path

from builder import __version__
from builder.errors import BuilderError, InvalidValueError
from builder.input_limits import PROOF_BYTES, PROOF_ENTRIES, PROOF_LESSONS
from builder.publishing.proof.safety.evidence import FORM, EditionProof, Proof
from builder.publishing.proof.safety.json_form import parse_json, read_form, write_form

PROOF_FILE = "proof.json"
_DIGEST = re.compile(r"[0-9a-f]{64}")


def write_proof(proof: Proof) -> bytes:
    """Write a proof; the same proof gives the same bytes."""
    return _dump(write_form(proof))


def write_part(edition: EditionProof, sources: Mapping[str, str]) -> bytes:
    """Write what the site of one language hands to the whole site, which puts it into its own."""
    return write_proof(Proof(FORM, __version__, (edition,), sources, {}))


def read_proof(content: bytes) -> Proof:
    """Read a proof, which may be anybody's.

    Raises InvalidValueError where it is none.
    """
    if len(content) > PROOF_BYTES.most:
        raise InvalidValueError("it is far too large", "build the site again")
    try:
        text = content.decode("utf-8")
    except UnicodeDecodeError as error:
        raise InvalidValueError("it is no text", "build the site again") from error
    proof: Proof = read_form(Proof, parse_json(text), "proof")
    if proof.form != FORM:
        cure = "prove the site with the version of tempoleaf that built it, or build it again"
        raise InvalidValueError(f'"proof.form" is {proof.form}, and {FORM} is known here', cure)
    if _is_endless(proof):
        raise InvalidValueError("it tells of more than any course has", "build the site again")
    return proof


def _is_endless(proof: Proof) -> bool:
    """Tell whether a proof has so much that judging it would take for ever."""
    lessons = [lesson for edition in proof.editions for lesson in edition.lessons]
    lists = (
        proof.editions,
        *(edition.notices for edition in proof.editions),
        *(each for lesson in lessons for each in (lesson.traits, lesson.notices, lesson.waived)),
        *(lesson.artefacts for lesson in lessons),
    )
    return len(lessons) > PROOF_LESSONS.most or any(
        len(each) > PROOF_ENTRIES.most for each in lists
    )


def parse_digest(text: str) -> str:
    """Return a digest as somebody kept it; BuilderError where it is none."""
    digest = text.strip().lower()
    if not _DIGEST.fullmatch(digest):
        cure = "give the 64 signs that tempoleaf build printed"
        raise BuilderError(f'"{text}" is no digest of a proof', cure)
    return digest


def digest_proof(folder: Path) -> str:
    """Return the SHA-256 of a site's proof, which stands for the whole site."""
    with (folder / PROOF_FILE).open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _dump(value: object) -> bytes:
    text = json.dumps(value, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return f"{text}\n".encode()
