"""Linked data against the vocabulary that schema.org publishes."""

import json

import pytest

from builder.course.course import Course
from builder.publishing.pages.json_ld import describe_course, describe_lesson, write_json_ld
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE

# Own properties as schema.org lists them on the pages of these types (vocabulary under
# Apache-2.0, github.com/schemaorg/schemaorg).
EXERCISE_PLAN = {
    "activityDuration",
    "activityFrequency",
    "additionalVariable",
    "exerciseType",
    "intensity",
    "repetitions",
    "restPeriods",
    "workload",
}
LEARNING_RESOURCE = {
    "assesses",
    "competencyRequired",
    "educationalAlignment",
    "educationalLevel",
    "educationalUse",
    "learningResourceType",
    "teaches",
}
COURSE = {
    "availableLanguage",
    "courseCode",
    "coursePrerequisites",
    "hasCourseInstance",
    "syllabusSections",
}
# Of the parents only those that concern us; from memory of schema.org/CreativeWork and /Thing.
CREATIVE_WORK = {
    *("hasPart", "inLanguage", "isPartOf", "license", "provider", "publisher", "timeRequired"),
}
THING = {"description", "identifier", "image", "name", "sameAs", "url"}
ALLOWED = {
    "Course": COURSE | LEARNING_RESOURCE | CREATIVE_WORK | THING,
    "LearningResource": LEARNING_RESOURCE | CREATIVE_WORK | THING,
    "ExercisePlan": EXERCISE_PLAN | CREATIVE_WORK | THING,
    "Organization": THING,
}


@pytest.fixture
def course() -> Course:
    read = read_course(SMALL_COURSE).course
    assert read is not None
    return read


def find_foreign(value: object) -> set[str]:
    """Name the properties that schema.org defines for none of a thing's types."""
    if isinstance(value, list):
        return set().union(*(find_foreign(item) for item in value))
    if not isinstance(value, dict):
        return set()
    types = value["@type"] if isinstance(value["@type"], list) else [value["@type"]]
    allowed = set().union(*(ALLOWED[name] for name in types), {"@type", "@context"})
    return (set(value) - allowed).union(*(find_foreign(item) for item in value.values()))


def test_a_lesson_uses_only_what_schema_org_defines(course: Course) -> None:
    described = [describe_lesson(course, lesson) for lesson in course.lessons]
    assert find_foreign(described) == set()


def test_the_course_uses_only_what_schema_org_defines(course: Course) -> None:
    assert find_foreign(describe_course(course)) == set()


def test_an_invented_property_would_be_noticed() -> None:
    assert find_foreign({"@type": "ExercisePlan", "tempo": "4-1-4-1"}) == {"tempo"}


def test_a_lesson_says_what_it_builds_on_and_how_long_it_takes(course: Course) -> None:
    hold = describe_lesson(course, course.by_id["short-hold"])
    assert hold["competencyRequired"] == [course.by_id["plain-count"].title]
    # 2 sets of 5 breaths of 12 s with 40 s rest between; ISO 8601 duration.
    assert hold["activityDuration"] == "PT160S"
    assert hold["repetitions"] == 5
    assert hold["restPeriods"] == "40 seconds between sets"


def test_no_text_can_close_the_script_block() -> None:
    written = write_json_ld({"name": "</script><script>alert(1)</script> & more"})
    assert written.count("</script>") == 1
    inside = written.removeprefix('<script type="application/ld+json">').removesuffix("</script>")
    assert json.loads(inside)["name"] == "</script><script>alert(1)</script> & more"
