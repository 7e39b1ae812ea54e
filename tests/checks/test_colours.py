"""Colours: contrast by the Web Content Accessibility Guidelines 2.2 (W3C 2023), criterion 1.4.3."""

from dataclasses import replace

import pytest

from builder.checks.colours import find_low_contrast
from builder.course.course import Colours


def found(course, colours):
    changed = replace(course, settings=replace(course.settings, colours=colours))
    return [
        (finding.place.path, finding.fact, finding.cure) for finding in find_low_contrast(changed)
    ]


# #767676 is the palest grey that passes on white (4.54 to 1), #777777 fails with 4.48: an example
# much used beside the criterion, reckoned here by its formula.
@pytest.mark.parametrize(("ink", "number"), [("#767676", 0), ("#777777", 1)])
def test_the_limit_for_text_is_4_5_to_1(small_course, ink, number):
    assert len(found(small_course, Colours(ink=ink, accent="#000000", paper="#ffffff"))) == number


def test_each_pale_colour_is_named_with_a_darker_one(small_course):
    assert found(small_course, Colours(ink="#777777", accent="#7fb0ad", paper="#ffffff")) == [
        (
            "content/course.yml",
            "the ink #777777 on the paper #ffffff has a contrast of 4.4 to 1, under 4.5",
            'write "#757575", the nearest darker shade that can be read',
        ),
        (
            "content/course.yml",
            "the accent #7fb0ad on the paper #ffffff has a contrast of 2.4 to 1, under 4.5",
            'write "#5a7c7a", the nearest darker shade that can be read',
        ),
    ]


def test_dark_paper_is_the_fault_where_nothing_can_be_read_on_it(small_course):
    facts = found(small_course, Colours(ink="#333333", accent="#333333", paper="#444444"))
    assert {cure for _, _, cure in facts} == {"choose a paler paper"}
