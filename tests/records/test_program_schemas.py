"""The schemas of a program folder's files, as another reader of JSON Schema takes them."""

import jsonschema
import pytest
import yaml

from builder.records.program_schemas import PROGRAM_SCHEMAS, write_program_schema
from tests.records import test_class_file, test_plan_file


@pytest.mark.parametrize("name", PROGRAM_SCHEMAS)
def test_a_published_schema_is_valid_json_schema(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(write_program_schema(name))


@pytest.mark.parametrize(
    ("name", "text"), [("class", test_class_file.SOUND), ("plan", test_plan_file.WRITTEN)]
)
def test_another_reader_takes_sound_files_and_no_unknown_key(name: str, text: str) -> None:
    schema, values = write_program_schema(name), yaml.safe_load(text)
    jsonschema.validate(values, schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**values, "other": 1}, schema)
