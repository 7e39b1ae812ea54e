"""A name is cut out of YAML text, and what stands beside it stays to the letter."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from builder.reading.yaml_cut import cut_name, drop_name
from builder.reading.yaml_tree import read_yaml

KEYS = ("people", "without", "added")


def cut(text: str) -> str | None:
    return cut_name(text, "C1", KEYS)


@pytest.mark.parametrize(
    ("text", "left"),
    [
        ("people: [C1, C2]  # both\n", "people: [C2]  # both\n"),
        ("people: [C2, c1]\nminutes: 45\n", "people: [C2]\nminutes: 45\n"),
        ("people: [C2, C1, C3]", "people: [C2, C3]"),
        (
            "people:\n  - C2\n  - C1  # sits\n  # C3 too\n  - C3\n",
            "people:\n  - C2\n  # C3 too\n  - C3\n",
        ),
        ("people: [\n  C1,  # sits\n  # C2 lies\n  C2,\n]\n", "people: [\n  # C2 lies\n  C2,\n]\n"),
        ("people: [C2]\ncoaches: [C1]\n", "people: [C2]\ncoaches: [C1]\n"),
        (
            "blocks:\n  - count: 4-4\n    people:\n      C1: a  # A\n      C2: b\n",
            "blocks:\n  - count: 4-4\n    people:\n      C2: b\n",
        ),
        (
            "blocks:\n  - people:\n      C2: b\n      C1: {lesson: a, look: true}\n",
            "blocks:\n  - people:\n      C2: b\n",
        ),
        ("blocks:\n  - people: {C1: a, C2: b}\n", "blocks:\n  - people: {C2: b}\n"),
        (
            "people:\n  C1:\n    lesson: a\n    look: true  # x\n  # rest\n  C2: b\n",
            "people:\n  # rest\n  C2: b\n",
        ),
        ('people: ["C1", "C2"]\n', 'people: ["C2"]\n'),
    ],
)
def test_a_name_goes_and_the_rest_stays(text: str, left: str) -> None:
    assert cut(text) == left


@pytest.mark.parametrize("text", ["people: [C1]\n", "blocks:\n  - people:\n      C1: a\n"])
def test_nothing_is_left_where_nobody_is(text: str) -> None:
    assert cut(text) == ""


@pytest.mark.parametrize(
    "text", ["people: [C1", "- C1\n", "people: {C2: b}\nx:\n  - people:\n    - - C1\n      - C2\n"]
)
def test_what_cannot_be_cut_safely_is_told(text: str) -> None:
    left = cut(text)
    assert left is None or "C1" in left


@given(
    st.lists(st.sampled_from(["C1", "C2", "C3", "c1", "C11"]), min_size=1, unique=True),
    st.booleans(),
    st.sampled_from(["", "  # a remark", "   "]),
)
def test_whatever_the_order_others_stay(names: list[str], is_flow: bool, remark: str) -> None:
    items = "".join(f"\n  - {name}{remark}" for name in names)
    text = f"people: [{', '.join(names)}]{remark}\n" if is_flow else f"people:{items}\n"
    left = cut(text)
    tree = read_yaml(text, "")[0]
    assert tree is not None
    wanted = drop_name(tree.values, "C1", KEYS)
    after = read_yaml(left, "")[0] if left else None
    assert (after.values if after else {"people": []}) == wanted
