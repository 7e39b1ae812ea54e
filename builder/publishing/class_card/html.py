"""Class cards as HTML: the template with a class and its drawings in it."""

from markupsafe import Markup

from builder.course.figure import Figure
from builder.drawing.figure.pair import Room, draw_in_breath
from builder.drawing.labels import Labels
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.language import language_of
from builder.publishing.class_card.face import BlockFace, ClassFace, face_class
from builder.publishing.class_card.setting import ClassSetting, Level
from builder.publishing.environment import open_templates
from builder.publishing.views.class_view import ClassView
from builder.resources import find_templates
from builder.sums.paper import MM_PER_INCH, POINTS_PER_INCH, Paper

TEMPLATES = "class_card"
_TEMPLATE = "class_card.html.j2"
_STYLE = "class_card.css"
_SIDE_MM = 7
_TOP_MM, _BOTTOM_MM = 12, 12
"""Room for the mark at the head and for the caution at the foot of each page."""
_STRIP_MM = 29
_RISE = 1.2
"""How high a breath of the tempo strip rises, in letters."""
_FIGURE_ROOMS = {Level.WIDE: Room(24, 20), Level.DENSE: Room(15, 11)}


def make_face(view: ClassView, setting: ClassSetting) -> ClassFace:
    """Return what stands on a card in a setting."""
    return face_class(
        view,
        language_of(view.language),
        has_short_names=not setting.is_wide,
        has_figures=not setting.is_bare,
    )


def write_class_card(face: ClassFace, setting: ClassSetting) -> str:
    """Write the card of a class."""
    view = face.view
    language = language_of(view.language)
    drawings = _Drawings(face, setting, Labels(language))
    values = {
        "card": face,
        "view": view,
        "setting": setting,
        "is_wide": setting.is_wide,
        "is_bare": setting.is_bare,
        "is_split": setting.level is Level.SPLIT,
        "figures": drawings.draw_figures(),
        "strips": drawings.draw_strips(),
        "day": language.date(view.day),
    }
    template = open_templates(TEMPLATES).get_template(_TEMPLATE)
    return template.render(**values, **language.sayings)


def read_class_style(paper: Paper) -> str:
    """Return the style sheet of class cards on a paper."""
    size = f"size: {paper.width_mm}mm {paper.height_mm}mm"
    margin = f"margin: {_TOP_MM}mm {_SIDE_MM}mm {_BOTTOM_MM}mm"
    sheet = (find_templates() / TEMPLATES / _STYLE).read_text(encoding="utf-8")
    return f"{sheet}\n@page {{ {size}; {margin} }}\n"


class _Drawings:
    """Draws what a card shows: figures by block and lesson, strips by block."""

    def __init__(self, face: ClassFace, setting: ClassSetting, labels: Labels) -> None:
        self.face, self.setting, self.labels = face, setting, labels
        self.letter_mm = setting.points / POINTS_PER_INCH * MM_PER_INCH

    def draw_strips(self) -> dict[int, Markup]:
        """Draw the shared count of each block that has one."""
        return {
            block.view.number: Markup(  # noqa: S704  # drawn by us
                draw_tempo_strip(
                    block.view.tempo, _STRIP_MM, min(self.letter_mm, 3.2), _RISE, self.labels
                )
            )
            for block in self.face.blocks
            if block.view.tempo is not None
        }

    def draw_figures(self) -> dict[tuple[int, str, str], Markup]:
        """Draw the in-breath of each group: in every block, or once where room is short."""
        room = _FIGURE_ROOMS.get(self.setting.level)
        if room is None:
            return {}
        return {
            (block.view.number, *drawn): self._draw(figure, f"{block.view.number}-{place}", room)
            for block in self.face.blocks
            for place, (drawn, figure) in enumerate(
                _list_figures(block, every=self.setting.is_wide)
            )
        }

    def _draw(self, figure: Figure, place: str, room: Room) -> Markup:
        name = f"figure-{place}"
        return Markup(draw_in_breath(figure, name, room, self.labels).svg)  # noqa: S704  # by us


def _list_figures(block: BlockFace, *, every: bool) -> tuple[tuple[tuple[str, str], Figure], ...]:
    """Return what is drawn of a block by lesson and other position, each once."""
    figures = {(turn.lesson_id, turn.instead): turn.figure for turn in block.view.turns}
    groups = (group for group in block.groups if every or group.is_first)
    shown = dict.fromkeys((group.lesson_id, group.instead) for group in groups)
    found = ((drawn, figures[drawn]) for drawn in shown)
    return tuple((drawn, figure) for drawn, figure in found if figure is not None)
