import pytest

from builder.checks.former_ids import find_taken_former_ids


@pytest.mark.parametrize(
    ("was", "says"),
    [
        ((), None),
        (("first-count",), None),
        (("long-out",), 'the former id "long-out" belongs to the lesson "long-out"'),
        (("plain-count",), 'the former id "plain-count" belongs to the lesson "plain-count"'),
    ],
)
def test_a_former_id_is_nobody_elses(change_lesson, was, says):
    findings = [str(finding) for finding in find_taken_former_ids(change_lesson(was=was))]
    assert len(findings) == bool(says)
    assert all(says in line for line in findings)


def test_two_lessons_may_not_claim_one_former_id(change_lesson):
    course = change_lesson("plain-count", was=("old-count",))
    course = change_lesson("short-hold", course, was=("old-count",))
    (finding,) = find_taken_former_ids(course)
    assert 'belongs to the lesson "plain-count"' in finding.fact
    assert finding.place.path.endswith("short-hold.md")
