"""One finished PDF of each kind, of the small course and of the demo program."""

from collections.abc import Callable

from builder.course.audience import Audience
from builder.course.course import Course
from builder.planning.group import survey_group
from builder.publishing.cards.pack_plan import WHOLE_COURSE, plan_packs
from builder.publishing.cards.printing import print_card
from builder.publishing.cards.sheets import print_sheets
from builder.publishing.charts import (
    print_chart,
    write_air_chart,
    write_demand_chart,
    write_wall_chart,
)
from builder.publishing.class_card.printing import print_class_card
from builder.publishing.client_sheet.view import SheetForm
from builder.publishing.figures.sheet import make_sheet
from builder.publishing.group_view.view import view_group
from builder.publishing.group_view.write import print_group
from builder.records.studio import take_from_course
from builder.sums.paper import PAPERS
from tests.planning.starter import read_starter
from tests.publishing.cards.test_packs import print_pack
from tests.publishing.client_sheet.demo import DAY, print_demo, read_demo
from tests.publishing.conftest import make_face
from tests.publishing.demo_classes import view_demo


def print_cards(course: Course, audience: Audience) -> list[bytes]:
    lessons = [lesson.id for lesson in course.lessons]
    return [print_card(make_face(course, name, "a6", audience)).pdf for name in lessons]


def bind(course: Course) -> bytes:
    packs = plan_packs(course, course.lessons, PAPERS["a6"])
    whole = next(pack for pack in packs if pack.name == WHOLE_COURSE)
    return print_pack(whole, tuple(print_cards(course, Audience.CLIENT)))


def lay_on_sheets(course: Course) -> bytes:
    cards = print_cards(course, Audience.COACH)
    return print_sheets(cards, PAPERS["a6"], "Cards to cut", "en-GB")


def print_demo_group() -> bytes:
    reading, course = read_demo(), read_starter()
    group = survey_group(course, reading.records.program, DAY, courses=reading.courses)
    return print_group(view_group(course, group, take_from_course(course)))


KINDS: dict[str, Callable[[Course], bytes]] = {
    "client card": lambda course: print_cards(course, Audience.CLIENT)[-1],
    "coach card": lambda course: print_cards(course, Audience.COACH)[-1],
    "pack": bind,
    "sheets to cut": lay_on_sheets,
    "class card": lambda _: print_class_card(view_demo("2026-11-24-mixed"), PAPERS["a4"]).pdf,
    "client sheet": lambda _: print_demo("C5").pdf,
    "large client sheet": lambda _: print_demo("C3", SheetForm.LARGE).pdf,
    "group": lambda _: print_demo_group(),
    "wall chart": lambda _: print_chart(write_wall_chart(read_starter(), "a4")),
    "air chart": lambda _: print_chart(write_air_chart(read_starter(), "a4")),
    "demand chart": lambda _: print_chart(write_demand_chart(read_starter(), "a4")),
    "sheet of figures": lambda _: make_sheet(read_starter()),
}
"""Each is checked as it is made, so making it is a test by itself."""
