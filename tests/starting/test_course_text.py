import json

import pytest
import yaml

from builder.errors import BuilderError
from builder.resources import find_starter
from builder.starting.course_text import keep_notices, quote, write_course_file
from builder.starting.wishes import Wishes

AWKWARD = 'Anna\'s "Room": <b> & #1 {x} [y] \\n 👩‍👧'


@pytest.fixture
def starter() -> str:
    return (find_starter() / "course.yml").read_text("utf-8")


def strand_ids(text: str) -> list[str]:
    return [strand["id"] for strand in yaml.safe_load(text)["strands"]]


def test_every_wish_stands_in_its_place(starter: str) -> None:
    wishes = Wishes(AWKWARD, "a: b", "#23568c", "letter", "https://a.example/", "en-IE")
    read = yaml.safe_load(write_course_file(starter, wishes, strand_ids(starter)))
    assert read["studio"] == {"name": AWKWARD, "contact": "a: b"}
    assert read["colours"]["accent"] == "#23568c"
    assert (read["paper"], read["address"], read["language"]) == (
        "letter",
        "https://a.example/",
        "en-IE",
    )


def test_all_else_stays_line_for_line_with_its_comments(starter: str) -> None:
    made = write_course_file(starter, Wishes("A", paper="a6"), strand_ids(starter))
    pairs = list(zip(starter.splitlines(), made.splitlines(), strict=True))
    changed = [old.partition(":")[0] for old, new in pairs if old != new]
    assert changed == ["paper", "address", "studio"]
    assert 'paper: "a6"                      # the size' in made


def test_only_the_wanted_strands_stay(starter: str) -> None:
    others = strand_ids(starter)[1:]
    made = write_course_file(starter, Wishes("A"), {others[0], others[-1]})
    assert strand_ids(made) == [others[0], others[-1]]
    assert made.partition("\npositions:")[2] == starter.partition("\npositions:")[2]


def test_only_the_notices_that_are_there_stay_listed(starter: str) -> None:
    listed = yaml.safe_load(starter)["notices"]
    made = keep_notices(starter, listed[1:3])
    assert yaml.safe_load(made) == {**yaml.safe_load(starter), "notices": listed[1:3]}


def test_a_starter_of_another_form_is_refused() -> None:
    with pytest.raises(BuilderError, match='no line "address: …"'):
        write_course_file("title: A\n", Wishes("A"), ["a"])


@pytest.mark.parametrize("text", [AWKWARD, "no", "2026-01-01", "- a", "'", "\u2028", "é"])
def test_quoted_text_is_read_back_the_same(text: str) -> None:
    assert yaml.safe_load(quote(text)) == json.loads(quote(text)) == text
