"""The placement table of a smaller course: no way leads to a lesson that didn't come."""

from builder.starting.placement_text import keep_placement

TABLE = """\
ask_first: [You feel ill today]   # kept
questions:
  - id: moves
    text: First?
    lesson: hands
    answers: {a: A, b: B}
start:
  - strand: breath
    ways:
      - {when: {moves: [a]}, lesson: ribs, why: Ribs.}
      - {lesson: belly, why: Belly.}
  - strand: tempo
    ways:
      - {lesson: even, why: Even.}
  - strand: later
    ways:
      - {why: It waits.}
"""


def test_a_whole_course_keeps_every_letter() -> None:
    lessons = {"hands", "ribs", "belly", "even"}
    assert keep_placement(TABLE, {"breath", "tempo", "later"}, lessons) == TABLE


def test_lost_lessons_and_strands_go_with_their_lines() -> None:
    kept = keep_placement(TABLE, {"breath", "later"}, {"belly"})
    assert "ribs" not in kept
    assert "hands" not in kept
    assert "tempo" not in kept
    assert "ask_first: [You feel ill today]   # kept" in kept
    assert kept.endswith(
        "      - {lesson: belly, why: Belly.}\n"
        "  - strand: later\n    ways:\n      - {why: It waits.}\n"
    )


def test_a_strand_that_would_send_people_nowhere_goes_too() -> None:
    assert "strand: tempo" not in keep_placement(TABLE, {"tempo", "later"}, {"belly"})


RECORDED = """\
questions:
  - id: known
    text: How much?
    answers:
      new: It is new to me
      breath: breathing
      brace: The brace
    ready:
      breath: belly
      brace: brace
    otherwise: new
  - id: moves
    text: First?
    lesson: hands
    measure: mover
    words: {both: chest}
    answers: {chest: Chest}
"""


def test_records_answer_by_lessons_that_came_only() -> None:
    assert keep_placement(RECORDED, set(), {"belly", "brace", "hands"}) == RECORDED
    fewer = keep_placement(RECORDED, set(), {"belly"})
    assert fewer == RECORDED.replace("      brace: brace\n", "").replace(
        "    lesson: hands\n    measure: mover\n    words: {both: chest}\n", ""
    )
    assert "ready:" not in keep_placement(RECORDED, set(), {"hands"})
