from dataclasses import replace

import pytest

from builder.checks.efforts import find_efforts_unlike_source


def _with_effort(course, **parts):
    effort = replace(course.vocabulary.efforts["light"], **parts)
    return replace(course, vocabulary=replace(course.vocabulary, efforts={"light": effort}))


@pytest.mark.parametrize(
    ("parts", "says"),
    [
        ({}, None),
        ({"met": 2.4}, "is 2.4 MET, the Compendium 2024 gives 2.3 for 02101"),
        ({"met": 2.4, "code": "99999"}, None),
        ({"met": 2.4, "edition": "measured at the studio"}, None),
        ({"code": "02103", "edition": "Compendium 2011"}, "has no source: the code 02103"),
    ],
)
def test_a_value_is_the_one_that_its_edition_gives(small_course, parts, says):
    findings = [str(f) for f in find_efforts_unlike_source(_with_effort(small_course, **parts))]
    assert len(findings) == bool(says)
    assert all(says in line for line in findings)


def test_every_effort_is_looked_at(small_course):
    """Whatever comes first: one without a code of a known edition, one with an unknown code."""
    light = small_course.vocabulary.efforts["light"]
    efforts = {
        "own": replace(light, id="own", edition="measured at the studio"),
        "unknown": replace(light, id="unknown", code="02103", edition="Compendium 2011"),
        "light": replace(light, met=2.4),
    }
    course = replace(small_course, vocabulary=replace(small_course.vocabulary, efforts=efforts))
    facts = [(f.fact.split('"')[1], f.cure) for f in find_efforts_unlike_source(course)]
    assert facts == [
        ("unknown", "name the other edition"),
        ("light", "write 2.3, or name the source of 2.4"),
    ]


def test_the_finding_stands_at_the_value(small_course):
    (finding,) = find_efforts_unlike_source(_with_effort(small_course, met=3))
    assert str(finding.place).startswith("content/course.yml:20:")
