"""Linked data against the vocabulary that schema.org publishes."""

import json
import re
from dataclasses import replace

import pytest

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.publishing.pages.json_ld import (
    JsonLd,
    describe_course,
    describe_lesson,
    write_json_ld,
)
from builder.publishing.views.inline import no_link
from builder.publishing.views.lesson_in_words import view_lesson
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE

# Properties as schema.org 29.0 lists them for these types, each with the types around it
# (vocabulary under Apache-2.0, github.com/schemaorg/schemaorg, data/releases/29.0).
THING = {
    *("additionalType", "alternateName", "description", "disambiguatingDescription"),
    *("identifier", "image", "mainEntityOfPage", "name", "potentialAction", "sameAs"),
    *("subjectOf", "url"),
}
CREATIVE_WORK = THING | {
    *("about", "abstract", "accessMode", "accessModeSufficient", "accessibilityAPI"),
    *("accessibilityControl", "accessibilityFeature", "accessibilityHazard"),
    *("accessibilitySummary", "accountablePerson", "acquireLicensePage", "aggregateRating"),
    *("alternativeHeadline", "archivedAt", "assesses", "associatedMedia", "audience", "audio"),
    *("author", "award", "character", "citation", "comment", "commentCount"),
    *("conditionsOfAccess", "contentLocation", "contentRating", "contentReferenceTime"),
    *("contributor", "copyrightHolder", "copyrightNotice", "copyrightYear", "correction"),
    *("countryOfOrigin", "creativeWorkStatus", "creator", "creditText", "dateCreated"),
    *("dateModified", "datePublished", "digitalSourceType", "discussionUrl", "editEIDR"),
    *("editor", "educationalAlignment", "educationalLevel", "educationalUse", "encoding"),
    *("encodingFormat", "exampleOfWork", "expires", "funder", "funding", "genre", "hasPart"),
    *("headline", "inLanguage", "interactionStatistic", "interactivityType"),
    *("interpretedAsClaim", "isAccessibleForFree", "isBasedOn", "isFamilyFriendly", "isPartOf"),
    *("keywords", "learningResourceType", "license", "locationCreated", "mainEntity"),
    *("maintainer", "material", "materialExtent", "mentions", "offers", "pattern", "position"),
    *("producer", "provider", "publication", "publisher", "publisherImprint"),
    *("publishingPrinciples", "recordedAt", "releasedEvent", "review", "schemaVersion"),
    *("sdDatePublished", "sdLicense", "sdPublisher", "size", "sourceOrganization"),
    *("spatial", "spatialCoverage", "sponsor", "teaches", "temporal", "temporalCoverage"),
    *("text", "thumbnail", "thumbnailUrl", "timeRequired", "translationOfWork", "translator"),
    *("typicalAgeRange", "usageInfo", "version", "video", "wordCount", "workExample"),
    "workTranslation",
}
LEARNING_RESOURCE = CREATIVE_WORK | {
    *("assesses", "competencyRequired", "educationalAlignment", "educationalLevel"),
    *("educationalUse", "learningResourceType", "teaches"),
}
COURSE = LEARNING_RESOURCE | {
    *("availableLanguage", "courseCode", "coursePrerequisites", "hasCourseInstance"),
    "syllabusSections",
}
PHYSICAL_ACTIVITY = THING | {"category"}
EXERCISE_PLAN = (
    CREATIVE_WORK
    | PHYSICAL_ACTIVITY
    | {
        *("activityDuration", "activityFrequency", "additionalVariable", "exerciseType"),
        *("intensity", "repetitions", "restPeriods", "workload"),
    }
)
ALLOWED = {
    "Course": COURSE,
    "Syllabus": LEARNING_RESOURCE,
    "LearningResource": LEARNING_RESOURCE,
    "ExercisePlan": EXERCISE_PLAN,
    "Organization": THING,
    "QuantitativeValue": THING | {"maxValue", "minValue", "unitCode", "unitText", "value"},
}
DURATION = re.compile(r"PT\d+S")
"""Seconds as ISO 8601 writes them."""


@pytest.fixture
def course() -> Course:
    read = read_course(SMALL_COURSE).course
    assert read is not None
    return read


def describe(course: Course, lesson: Lesson) -> JsonLd:
    return describe_lesson(course, lesson, view_lesson(course, lesson, no_link), "A1B2C")


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
    described = [describe(course, lesson) for lesson in course.lessons]
    assert find_foreign(described) == set()


def test_the_course_uses_only_what_schema_org_defines(course: Course) -> None:
    assert find_foreign(describe_course(course)) == set()


def test_an_invented_property_would_be_noticed() -> None:
    assert find_foreign({"@type": "ExercisePlan", "tempo": "4-1-4-1"}) == {"tempo"}
    assert find_foreign({"@type": "ExercisePlan", "competencyRequired": []}) != set()
    nested = {"@type": "Course", "hasPart": [{"@type": "Syllabus", "repetitions": 5}]}
    assert find_foreign(nested) == {"repetitions"}


def test_a_lesson_says_what_it_builds_on_and_how_long_it_takes(course: Course) -> None:
    hold = describe(course, course.by_id["short-hold"])
    assert hold["competencyRequired"] == [course.by_id["plain-count"].title]
    # 2 sets of 5 breaths of 12 s with 40 s rest between; ISO 8601 duration.
    assert hold["activityDuration"] == "PT160S"
    assert hold["repetitions"] == 5
    assert hold["restPeriods"] == "40 s between sets"
    assert hold["intensity"] == "resting"
    assert hold["workload"] == {"@type": "QuantitativeValue", "value": 1.3, "unitText": "MET"}
    assert DURATION.fullmatch(str(hold["timeRequired"]))


def test_a_plan_takes_its_cautions_along(course: Course) -> None:
    """Somebody may show the dose where nobody sees the page."""
    for lesson in course.lessons:
        described = describe(course, lesson)
        along = str(described["additionalVariable"])
        assert course.settings.caution in str(described["description"])
        assert all(notice.short in along for notice in course.notices_for(lesson))
        assert all(sign in along for sign in lesson.words.stop_if)


def test_coach_notes_stay_with_the_coach(course: Course) -> None:
    described = json.dumps([describe(course, lesson) for lesson in course.lessons])
    assert "when somebody strains" in str(course.by_id["short-hold"].words.coach_notes)
    assert "when somebody strains" not in described


def test_breaths_at_ones_own_pace_are_not_timed(course: Course) -> None:
    own_pace = replace(course.by_id["short-hold"].drill, tempo=None)
    lesson = replace(course.by_id["short-hold"], drill=own_pace)
    assert "activityDuration" not in describe(course, lesson)


def test_lessons_come_in_an_order_that_can_be_learned(course: Course) -> None:
    parts = describe_course(course)["hasPart"]
    assert isinstance(parts, list)
    places = {part["name"]: part["position"] for part in parts}
    assert sorted(places.values()) == list(range(1, len(course.lessons) + 1))
    for lesson in course.lessons:
        for before in course.graph[lesson.id]:
            assert places[course.by_id[before].title] < places[lesson.title]


def test_strands_are_sections_with_the_addresses_of_their_pages(course: Course) -> None:
    sections = describe_course(course)["syllabusSections"]
    assert isinstance(sections, list)
    strands = list(course.vocabulary.strands.values())
    assert [section["name"] for section in sections] == [strand.title for strand in strands]
    site = course.settings.address.rstrip("/")
    wanted = [f"{site}/lessons/{strand.id}/" for strand in strands] if site else []
    assert [section["url"] for section in sections if "url" in section] == wanted


def test_no_text_can_close_the_script_block() -> None:
    written = write_json_ld({"name": "</script><script>alert(1)</script> & more"})
    assert written.count("</script>") == 1
    inside = written.removeprefix('<script type="application/ld+json">').removesuffix("</script>")
    assert json.loads(inside)["name"] == "</script><script>alert(1)</script> & more"
