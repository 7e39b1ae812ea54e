"""The schema that editors use, and what it shares with other parts."""

from typing import get_args

import jsonschema
import pytest

from builder.reading.schema import SCHEMAS, CourseHeader, write_json_schema
from builder.sums.paper import PAPERS


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_published_schema_is_valid_json_schema(name: str) -> None:
    jsonschema.Draft202012Validator.check_schema(write_json_schema(name))


def test_the_papers_of_the_schema_are_the_papers_that_cards_have() -> None:
    assert set(get_args(CourseHeader.model_fields["paper"].annotation)) == set(PAPERS)
