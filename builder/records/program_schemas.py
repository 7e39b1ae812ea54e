"""The schemas of the files of a program folder; editors use them as JSON Schema."""

from typing import Any

from builder.reading.part import Part
from builder.reading.schema import describe_part
from builder.records.class_file import ClassFile
from builder.records.plan_schema import PlanFile
from builder.records.studio_file import StudioFile
from builder.records.weeks_file import WeeksFile

PROGRAM_SCHEMAS: dict[str, type[Part]] = {
    "class": ClassFile,
    "weeks": WeeksFile,
    "plan": PlanFile,
    "studio": StudioFile,
}


def write_program_schema(name: str) -> dict[str, Any]:
    """Return the JSON Schema (2020-12) of a file of a program folder."""
    return describe_part(PROGRAM_SCHEMAS[name])
