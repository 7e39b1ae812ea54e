"""The course map: strands as lanes, lessons as stops, an arrow for each ``builds_on``."""

from collections.abc import Callable, Sequence
from math import copysign, hypot

from builder.course.course import Course
from builder.course.lesson import Lesson
from builder.drawing.lettering import LINE_HEIGHT
from builder.drawing.map_grid import MapGrid, lay_out
from builder.drawing.map_routes import Route, find_routes, share_out_tracks
from builder.drawing.map_sheet import LANE_LETTER, LANE_PAD, LETTER, Box, MapSheet, measure_map
from builder.drawing.svg import Frame, Svg, element, finish, path

_PIXELS_PER_MM = 14 / LETTER
"""Letters of 14 pixels on a page that doesn't scale the map."""
_CORNER = 1.0
_HEAD_LENGTH = 1.9
_HEAD_HALF = 0.85


def draw_course_map(course: Course, *, href: Callable[[str], str]) -> str:
    """Draw the map of a course without circles; ``href`` gives the address of a lesson."""
    grid = lay_out(course)
    routes = find_routes(grid)
    titles = {lesson.id: lesson.title for lesson in course.lessons}
    sheet = measure_map(grid, titles, routes, share_out_tracks(routes))
    count = len(grid.lanes)
    frame = Frame(
        "course-map",
        sheet.width,
        sheet.height,
        f"Map of the course: {course.settings.title}",
        f"{count} {'strand' if count == 1 else 'strands'} from top to bottom, the lessons of each "
        "from left to right by level. An arrow leads from a lesson to one that builds on it.",
        role="group",
        pixels_per_unit=_PIXELS_PER_MM,
    )
    return finish(
        frame,
        element("g", *_draw_lanes(grid, sheet), class_="lanes", aria_hidden="true"),
        element("g", *_draw_arrows(routes, sheet), class_="arrows", aria_hidden="true"),
        element(
            "g",
            *(_draw_stop(course, course.by_id[name], sheet, href(name)) for name in grid.cells),
            class_="stops",
        ),
    )


def _draw_lanes(grid: MapGrid, sheet: MapSheet) -> list[Svg]:
    parts = [
        element(
            "text",
            f"level {level}",
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


def _draw_stop(course: Course, lesson: Lesson, sheet: MapSheet, address: str) -> Svg:
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
        aria_label=_say(course, lesson),
    )


def _say(course: Course, lesson: Lesson) -> str:
    """Tell in words what place, lane and arrows tell the eye."""
    befores = ", ".join(course.by_id[name].title for name in course.graph[lesson.id])
    place = f"{lesson.title}: level {lesson.level} of {lesson.strand.title}."
    return f"{place} Builds on {befores}." if befores else place


def _draw_arrows(routes: Sequence[Route], sheet: MapSheet) -> list[Svg]:
    return [
        _draw_arrow(route, way, sheet.lane_boxes)
        for route, way in zip(routes, sheet.ways, strict=True)
    ]


def _draw_arrow(route: Route, way: tuple[tuple[float, float], ...], lanes: Sequence[Box]) -> Svg:
    """Draw a line with round bends and a head; it is thinner where it leaves its lane."""
    *_, (x, y), tip = way
    dx, dy = _direction((x, y), tip)
    neck = (tip[0] - dx * _HEAD_LENGTH, tip[1] - dy * _HEAD_LENGTH)
    side = (-dy * _HEAD_HALF, dx * _HEAD_HALF)
    head = path(
        *("M", *tip, "L", neck[0] + side[0], neck[1] + side[1]),
        *("L", neck[0] - side[0], neck[1] - side[1], "Z"),
    )
    stays = any(_holds(lane, way[0]) and _holds(lane, tip) for lane in lanes)
    line = element(
        "path",
        d=path(*_bend([*way[:-1], neck])),
        fill="none",
        stroke="currentColor",
        stroke_width=0.45 if stays else 0.25,
    )
    return element(
        "g",
        line,
        element("path", d=head),
        class_="arrow",
        data_from=route.source,
        data_to=route.target,
    )


def _bend(points: Sequence[tuple[float, float]]) -> list[str | float]:
    """Go from point to point, cutting each corner with a curve."""
    steps: list[str | float] = ["M", *points[0]]
    for before, corner, after in zip(points, points[1:], points[2:], strict=False):
        room = min(_CORNER, _distance(before, corner) / 2, _distance(corner, after) / 2)
        (in_x, in_y), (out_x, out_y) = _direction(before, corner), _direction(corner, after)
        steps += ["L", corner[0] - in_x * room, corner[1] - in_y * room]
        steps += ["Q", *corner, corner[0] + out_x * room, corner[1] + out_y * room]
    return [*steps, "L", *points[-1]]


def _direction(start: tuple[float, float], end: tuple[float, float]) -> tuple[float, float]:
    """Return which way a level or upright line runs."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    return (copysign(1, dx), 0) if abs(dx) > abs(dy) else (0, copysign(1, dy))


def _distance(start: tuple[float, float], end: tuple[float, float]) -> float:
    return hypot(end[0] - start[0], end[1] - start[1])


def _holds(lane: Box, point: tuple[float, float]) -> bool:
    return lane.top <= point[1] <= lane.top + lane.height


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
