from dataclasses import replace

import pytest

from builder.course.course import Course
from builder.publishing.pages.links import Site
from builder.publishing.pages.terms import explain_terms
from builder.reading.course_folder import read_course
from tests.conftest import SMALL_COURSE

GLOSSARY = {
    "Supine": "On your back. Face up.",
    "Lower ribs": 'The last "few" ribs.',
    "Hold": "Air kept in.",
}


@pytest.fixture
def site() -> Site:
    course = read_course(SMALL_COURSE).course
    assert isinstance(course, Course)
    return Site(replace(course, glossary=GLOSSARY))


def test_a_term_is_linked_once_where_it_is_first_used(site: Site) -> None:
    text = '<ol class="tl-steps">\n<li>Lie supine.</li>\n<li>Still supine.</li>\n</ol>'
    written = explain_terms(text, site, "map.md")
    link = '<a class="tl-term" href="../glossary/#supine" title="On your back.">supine</a>'
    assert written == text.replace("supine", link, 1)


def test_a_term_of_two_words_gets_one_anchor_and_safe_words(site: Site) -> None:
    written = explain_terms('<p class="tl-lead">The lower ribs move.</p>', site, "map.md")
    assert 'href="../glossary/#lower-ribs" title="The last &quot;few&quot; ribs."' in written


@pytest.mark.parametrize(
    "text",
    [
        "# Supine in a heading",
        "<p>supine outside running text</p>",
        '<p class="tl-lead"><a href="x">supine</a></p>',
        '<ol class="tl-steps"><li><label>supine</label></li></ol>',
        '<ul class="tl-facts"><li><span class="tl-facts__name">supine</span></li></ul>',
        '<p class="tl-lead">hold the ribs as you would hold bread</p>',
        '<p class="tl-lead">semi-supine</p>',
    ],
    ids=["heading", "elsewhere", "link", "label", "name", "everyday word", "part of a word"],
)
def test_other_places_stay_as_they_are(site: Site, text: str) -> None:
    assert explain_terms(text, site, "map.md") == text


def test_a_course_without_glossary_links_nothing(site: Site) -> None:
    bare = Site(replace(site.course, glossary={}))
    assert explain_terms('<p class="tl-lead">supine</p>', bare, "map.md").count("<a") == 0
