"""The course map: strands as lanes, lessons as stops, an arrow for each ``builds_on``."""

from collections.abc import Callable, Sequence

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.drawing.lettering import LINE_HEIGHT
from builder.drawing.map_grid import MapGrid, lay_out
from builder.drawing.map_lines import Spot, Way, leave_shared, write_head, write_line
from builder.drawing.map_routes import Route, find_routes, share_out_tracks
from builder.drawing.map_sheet import LANE_LETTER, LANE_PAD, LETTER, Box, MapSheet, measure_map
from builder.drawing.svg import Frame, Svg, element, finish
from builder.language import Language, language_of

_PIXELS_PER_MM = 14 / LETTER
"""Letters of 14 pixels on a page that doesn't scale the map."""


def draw_course_map(
    course: Course, *, href: Callable[[str], str], language: Language | None = None
) -> str:
    """Draw the map of a course without circles; ``href`` gives the address of a lesson.

    It speaks the language of the course unless another is given.
    """
    language = language or language_of(course.settings.language)
    grid = lay_out(course)
    routes = find_routes(grid)
    titles = {lesson.id: lesson.title for lesson in course.lessons}
    sheet = measure_map(grid, titles, routes, share_out_tracks(routes))
    frame = Frame(
        "course-map",
        sheet.width,
        sheet.height,
        language.say("Map of the course: {course}", course=course.settings.title),
        _describe(len(grid.lanes), language),
        role="group",
        pixels_per_unit=_PIXELS_PER_MM,
    )
    return finish(
        frame,
        element("g", *_draw_lanes(grid, sheet, language), class_="lanes", aria_hidden="true"),
        element("g", *_draw_arrows(routes, sheet), class_="arrows", aria_hidden="true"),
        element(
            "g",
            *(
                _draw_stop(lesson, sheet, href(lesson.id), _tell(course, lesson, language))
                for lesson in map(course.by_id.__getitem__, grid.cells)
            ),
            class_="stops",
        ),
    )


def _describe(lanes: int, language: Language) -> str:
    lies = language.say_many(
        "{count} strand from top to bottom, the lessons of each from left to right by level.",
        "{count} strands from top to bottom, the lessons of each from left to right by level.",
        lanes,
    )
    leads = language.say("An arrow leads from a lesson to one that builds on it.")
    return f"{lies} {leads}"


def _draw_lanes(grid: MapGrid, sheet: MapSheet, language: Language) -> list[Svg]:
    parts = [
        element(
            "text",
            language.say("level {level}", level=level),
            x=middle,
            y=sheet.level_line,
            font_size=LETTER,
            text_anchor="middle",
        )
        for level, middle in zip(grid.levels, sheet.level_middles, strict=True)
    ]
    for box, lines in zip(sheet.lane_boxes, sheet.lane_lines, strict=True):
        parts.append(_rectangle(box, corner=1.5, fill_opacity=0.07))
        _, middle = box.middle
        for index, line in enumerate(lines):
            y = _base_line(middle, index, len(lines), LANE_LETTER)
            parts.append(
                element("text", line, x=LANE_PAD, y=y, font_size=LANE_LETTER, font_weight=700)
            )
    return parts


def _draw_stop(lesson: Lesson, sheet: MapSheet, address: str, told: str) -> Svg:
    box, lines = sheet.boxes[lesson.id], sheet.lines[lesson.id]
    middle, centre = box.middle
    words = (
        element(
            "text",
            line,
            x=middle,
            y=_base_line(centre, index, len(lines), LETTER),
            font_size=LETTER,
            font_weight=600,
            text_anchor="middle",
        )
        for index, line in enumerate(lines)
    )
    return element(
        "a",
        _rectangle(box, corner=1.2, fill_opacity=0, stroke="currentColor", stroke_width=0.35),
        *words,
        class_="stop",
        href=address,
        data_lesson=lesson.id,
        aria_label=told,
    )


def _tell(course: Course, lesson: Lesson, language: Language) -> str:
    """Tell in words what place, lane and arrows tell the eye."""
    befores = ", ".join(course.by_id[name].title for name in course.graph[lesson.id])
    place = language.say(
        "{lesson}: level {level} of {strand}.",
        lesson=lesson.title,
        level=lesson.level,
        strand=lesson.strand.title,
    )
    if not befores:
        return place
    return " ".join((place, language.say("Builds on {lessons}.", lessons=befores)))


def _draw_arrows(routes: Sequence[Route], sheet: MapSheet) -> list[Svg]:
    drawn: dict[str, list[Way]] = {}
    parts = []
    for route, way in zip(routes, sheet.ways, strict=True):
        earlier = drawn.setdefault(route.source, [])
        parts.append(_draw_arrow(route, leave_shared(way, earlier), _weigh(way, sheet)))
        earlier.append(way)
    return parts


def _draw_arrow(route: Route, way: Way, weight: float) -> Svg:
    line = write_line(way)
    return element(
        "g",
        element("path", d=line, fill="none", stroke="currentColor", stroke_width=weight),
        element("path", d=write_head(way)),
        class_="arrow",
        data_from=route.source,
        data_to=route.target,
    )


def _weigh(way: Way, sheet: MapSheet) -> float:
    """Return a thinner line for an arrow that leaves its lane."""
    stays = any(_holds(lane, way[0]) and _holds(lane, way[-1]) for lane in sheet.lane_boxes)
    return 0.45 if stays else 0.25


def _holds(lane: Box, spot: Spot) -> bool:
    return lane.top <= spot[1] <= lane.top + lane.height


def _base_line(middle: float, index: int, count: int, size: float) -> float:
    """Return the base line of one of several lines around a middle."""
    return middle + (index - (count - 1) / 2) * LINE_HEIGHT * size + 0.33 * size


def _rectangle(box: Box, *, corner: float, **attributes: str | float) -> Svg:
    return element(
        "rect",
        x=box.left,
        y=box.top,
        width=box.width,
        height=box.height,
        rx=corner,
        **attributes,
    )
