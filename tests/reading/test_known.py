"""Names that nobody knows are told with where they stand."""

from datetime import date

import pytest

from builder.reading.known import HeaderCheck
from builder.reading.yaml_tree import Way, read_yaml


@pytest.mark.parametrize(
    ("text", "way", "name", "told"),
    [
        ("strand: breth", ("strand",), "breth", 'x.md:1:9: H110 name-unknown: "breth" under'),
        ("strand: strand", ("strand",), "strand", '"strand" under "strand" is unknown'),
        ("aim: [aim]", ("aim", 0), "aim", '"aim" under "aim" is unknown'),
        ("props: {props: 2}", ("props", "props"), "props", '"props" under "props" is unknown'),
        ("waive: {flor: 1}", ("waive", "flor"), "flor", '"flor" under "waive" is unknown'),
    ],
)
def test_a_name_is_told_with_its_key_even_where_they_are_alike(
    text: str, way: Way, name: str, told: str
) -> None:
    tree, _ = read_yaml(text, "x.md")
    assert tree is not None
    check = HeaderCheck(tree, "x.md", date(2026, 11, 27))
    assert not check.known(way, name, ("breath",))
    assert told in str(check.findings[0])
