"""Class cards as HTML: the template with a class and its drawings in it."""

from markupsafe import Markup

from builder.drawing.figure.pair import draw_in_breath
from builder.drawing.labels import Labels
from builder.drawing.tempo_strip import draw_tempo_strip
from builder.language import language_of
from builder.publishing.class_card.breaks import NO_BREAKS, Breaks
from builder.publishing.class_card.face import ClassFace
from builder.publishing.class_card.gathering import face_class
from builder.publishing.class_card.setting import ClassSetting
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


def make_face(view: ClassView, setting: ClassSetting) -> ClassFace:
    """Return what stands on a card in a setting."""
    return face_class(view, language_of(view.language), setting)


def write_class_card(face: ClassFace, setting: ClassSetting, breaks: Breaks = NO_BREAKS) -> str:
    """Write the card of a class, with what is known of where its pages break."""
    view = face.view
    language = language_of(view.language)
    drawings = _Drawings(face, setting, Labels(language))
    values = {
        "card": face,
        "view": view,
        "setting": setting,
        "breaks": breaks,
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
    """Draws what a card shows: a figure for each group of a block, strips by block."""

    def __init__(self, face: ClassFace, setting: ClassSetting, labels: Labels) -> None:
        self.face, self.setting, self.labels = face, setting, labels
        self.letter_mm = setting.points / POINTS_PER_INCH * MM_PER_INCH

    def draw_strips(self) -> dict[int, Markup]:
        """Draw the shared count of each block that has one, unless secondary words give way."""
        letter = min(self.letter_mm, 3.2)
        return {
            block.view.number: Markup(  # noqa: S704  # drawn by us
                draw_tempo_strip(block.view.tempo, _STRIP_MM, letter, _RISE, self.labels)
            )
            for block in self.face.blocks
            if block.view.tempo is not None and not self.setting.is_terse
        }

    def draw_figures(self) -> dict[tuple[int, int], Markup]:
        """Draw the in-breath of each group, by the number of its block and its own from 0."""
        room = self.setting.figure_room
        if room is None:
            return {}
        return {
            (block.view.number, index): Markup(  # noqa: S704  # drawn by us
                draw_in_breath(
                    group.figure, f"figure-{block.view.number}-{index}", room, self.labels
                ).svg
            )
            for block in self.face.blocks
            for index, group in enumerate(block.groups)
            if group.figure is not None
        }
