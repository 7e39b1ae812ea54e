"""The page of licences."""

import re

from markupsafe import escape

from builder.publishing.pages.licences import list_shipped_parts, make_licences_page
from builder.publishing.pages.links import Site


def test_every_part_stands_on_the_page_with_its_licence(small_course):
    rows = make_licences_page(Site(small_course)).splitlines()
    for part in list_shipped_parts():
        head = re.sub(" +", " ", f"- **{escape(part.name)}** {part.found_version} (")
        (row,) = (row for row in rows if re.sub(" +", " ", row).startswith(head))
        assert part.licence in row
        assert escape(part.where) in row
