"""YAML as its version 1.2 has it, with the place of everything."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.reading.yaml_tree import Tree, read_scalar, read_yaml


def read(text: str) -> dict[str, Tree]:
    tree, findings = read_yaml(text, "x.md")
    assert not findings
    assert tree
    return tree.values


# YAML 1.2.2, chapter 10.3.2 (core schema): these stay text, are octal or are whole numbers there.
@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("4:4", "4:4"),
        ("12:30", "12:30"),
        ("no", "no"),
        ("on", "on"),
        ("Yes", "Yes"),
        ("012", 12),
        ("0o14", 12),
        ("0xC", 12),
        ("1_000", "1_000"),
        ("2026-10-01", "2026-10-01"),
        ("4-1-4-1", "4-1-4-1"),
        ("1.5", 1.5),
        ("-2", -2),
        ("true", True),
        ("null", None),
        ("~", None),
    ],
)
def test_plain_scalars_mean_what_yaml_1_2_says(text: str, value: Tree) -> None:
    assert read_scalar(text) == value
    assert type(read_scalar(text)) is type(value)


def test_a_quoted_scalar_is_text() -> None:
    assert read("code: \"07011\"\nyes: 'true'") == {"code": "07011", "yes": "true"}


def test_every_key_and_value_has_its_place() -> None:
    tree, _ = read_yaml("dose: {sets: 2,\n  rest: 30}\nlist:\n- a\n- b", "x.md", first_line=2)
    assert tree
    assert tree.places[("dose", "rest")] == (3, 9)
    assert tree.keys[("dose", "rest")] == (3, 3)
    assert tree.places[("list", 1)] == (6, 3)


def test_a_doubled_key_is_found_at_its_second_place() -> None:
    _, findings = read_yaml("a: 1\nb: 2\na: 3", "x.md", first_line=2)
    assert [str(finding) for finding in findings] == [
        'x.md:4:1: H105 key-doubled: "a" stands here again, after line 2; keep one of the two.'
    ]


SO_FAR = "the text up to here"


@pytest.mark.parametrize(
    ("text", "place", "fact"),
    [
        ("a: &x 1", "x.md:1:4", "an anchor (&) or tag (!) stands here"),
        ("a: !!str 1", "x.md:1:4", "an anchor (&) or tag (!) stands here"),
        ("a: *x", "x.md:1:4", "an alias (*) stands here"),
        (
            "a: " + "[" * 99 + "]" * 99,
            "x.md:1:35",
            "the text up to here has 33 levels, more than 32",
        ),
        ("a: " + "[" * 2000, "x.md:1:1003", "the text up to here has 2000 levels, more than 32"),
        ("- a", "x.md:1:1", "there are no keys and values here"),
        ("", "x.md:1:1", "there are no keys and values here"),
        ("[1]: 2", "x.md:1:1", "a list or mapping is used as a key"),
        ("a: 1\n---\nb: 2", "x.md:2:1", "a second document starts here"),
    ],
)
def test_what_a_header_may_not_hold_is_told_with_its_place(
    text: str, place: str, fact: str
) -> None:
    tree, findings = read_yaml(text, "x.md")
    assert tree is None
    assert [(str(finding.place), finding.fact) for finding in findings] == [(place, fact)]


@pytest.mark.parametrize(
    ("text", "place", "fact", "cure"),
    [
        (
            "a: b: c",
            "x.md:1:5",
            "a colon stands inside a text",
            "put the whole text in double quotes",
        ),
        (
            "a:\n\t- b",
            "x.md:2:1",
            "no value can begin with this sign",
            "put the text in double quotes; indent with spaces, not tabs",
        ),
        (
            "a: @b",
            "x.md:1:4",
            "no value can begin with this sign",
            "put the text in double quotes; indent with spaces, not tabs",
        ),
        ("a: 'b", "x.md:1:6", "a quote is opened and never closed", "close it"),
        ("a: 1\nb\nc: 2", "x.md:3:1", "a key has no colon after it", "write key: value"),
        (
            'a: "\\q"',
            "x.md:1:5",
            "the backslash in this text means nothing",
            "write it twice, or leave it out",
        ),
        (
            'a: "x\\0"',
            "x.md:1:4",
            "a sign that can't be seen or printed (U+0000) stands here",
            "delete it, and type the words around it again",
        ),
        (
            'a: "x\\u202e"',
            "x.md:1:4",
            "a sign that can't be seen or printed (U+202E) stands here",
            "delete it, and type the words around it again",
        ),
    ],
)
def test_what_is_wrong_is_told_in_a_coach_s_words(
    text: str, place: str, fact: str, cure: str
) -> None:
    tree, findings = read_yaml(text, "x.md")
    assert tree is None
    assert [(str(f.place), f.fact, f.cure) for f in findings] == [(place, fact, cure)]


@pytest.mark.parametrize("text", ["0x" + "f" * 5000, "1" * 5000, "1e999", "0o" + "7" * 20])
def test_a_number_out_of_all_proportion_stays_text(text: str) -> None:
    assert read(f"a: {text}") == {"a": text}


@pytest.mark.parametrize("text", ["a: [1", "a: 'b", "a:\n\t- b", "a: b: c", "a: \x00"])
def test_text_that_is_no_yaml_is_one_finding(text: str) -> None:
    tree, findings = read_yaml(text, "x.md")
    assert tree is None
    assert [finding.rule.id for finding in findings] == ["H102"]


@given(st.text())
def test_no_text_makes_the_reader_crash(text: str) -> None:
    tree, findings = read_yaml(text, "x.md")
    assert tree is not None or findings
    for finding in findings:
        assert finding.place.line >= 1
        assert finding.place.column >= 1


words = st.text(st.characters(categories=["L", "N", "P", "S", "Zs"]), max_size=20)


@given(st.dictionaries(words, words, max_size=5))
def test_quoted_text_comes_back_whole(values: dict[str, str]) -> None:
    quoted = {key: key.replace("'", "''") for key in values}
    lines = [
        f"? '{quoted[key]}'\n: '{value}'".replace(value, value.replace("'", "''"))
        if value
        else f"? '{quoted[key]}'\n: ''"
        for key, value in values.items()
    ]
    if values and not any("'" in text for pair in values.items() for text in pair):
        assert read("\n".join(lines)) == values
