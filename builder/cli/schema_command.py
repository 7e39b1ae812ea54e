"""`tempoleaf schema`: print the schema of headers, so that an editor completes and checks them."""

import json
from enum import StrEnum
from typing import Annotated

import typer

from builder.publishing.proof.safety.file_schema import read_proof_schema
from builder.reading.schema import SCHEMAS, write_json_schema
from builder.records.program_schemas import write_program_schema


class Kind(StrEnum):
    """The files that have a schema."""

    LESSON = "lesson"
    NOTICE = "notice"
    COURSE = "course"
    CLASS = "class"
    WEEKS = "weeks"
    PLAN = "plan"
    STUDIO = "studio"
    PROOF = "proof"


def schema(
    kind: Annotated[Kind, typer.Argument(help="Which file or header.")] = Kind.LESSON,
) -> None:
    """Print the JSON Schema of a header, of a program folder's file, or of a site's proof.json."""
    print(json.dumps(_find(kind), ensure_ascii=False, indent=2))


def _find(kind: Kind) -> object:
    if kind is Kind.PROOF:
        return read_proof_schema()
    write = write_json_schema if kind.value in SCHEMAS else write_program_schema
    return write(kind.value)
