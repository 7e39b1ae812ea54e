"""The proof of a class screen: what must never be missing from the finished page."""

from collections.abc import Iterator

from markupsafe import escape

from builder.errors import BuilderError
from builder.publishing.views.class_view import ClassView


def prove_class_screen(view: ClassView, html: str) -> None:
    """Refuse a page that lacks a person, lesson, caution, refusal or stop sign: BuilderError."""
    lacking = next((text for text in _list_needed(view) if str(escape(text)) not in html), None)
    if lacking is not None:
        raise BuilderError(
            f'the class screen lacks "{lacking}"', "report this: it is a fault of the tool"
        )


def _list_needed(view: ClassView) -> Iterator[str]:
    yield view.caution
    yield from (name for _, name in view.people)
    yield from (text for _, cautions in view.cautions for text in cautions)
    for other in view.others:
        yield from other.cautions
        yield from (
            text for own in other.not_these for each in own for text in (each.title, each.why)
        )
    planned = (block.turns for block in (*view.blocks, *view.spare))
    for turns in (*planned, *(own for other in view.others for own in other.turns)):
        for turn in turns:
            own = turn.title, turn.instead, turn.dose_text
            yield from (*own, *turn.cautions, *turn.stop_if)
