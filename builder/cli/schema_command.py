"""`tempoleaf schema`: print the schema of headers, so that an editor completes and checks them."""

import json
from enum import StrEnum
from typing import Annotated

import typer

from builder.reading.schema import write_json_schema


class Kind(StrEnum):
    """The files that have a schema."""

    LESSON = "lesson"
    NOTICE = "notice"
    COURSE = "course"


def schema(
    kind: Annotated[Kind, typer.Argument(help="Which file's header.")] = Kind.LESSON,
) -> None:
    """Print the JSON Schema of a lesson's, a notice's or the course's header."""
    print(json.dumps(write_json_schema(kind.value), ensure_ascii=False, indent=2))
