"""Class files as text, for the class days of several weeks."""

from collections.abc import Iterator
from pathlib import Path

from builder.records.class_order import ClassOrder
from builder.records.folder import CLASSES
from builder.records.inner_file import ENDING
from builder.records.plan_text import quote_word
from builder.work.whole import add_whole


def write_class_text(order: ClassOrder, remark: str) -> str:
    """Return the text of a class file; what stands in it as ever is left out."""
    return "\n".join((f"# {remark}", *_write(order), ""))


def add_class_file(folder: Path, order: ClassOrder, remark: str) -> Path | None:
    """Write the class file of a day into a program folder; None where there is one already."""
    path = folder / CLASSES / f"{order.title}{ENDING}"
    path.parent.mkdir(exist_ok=True)
    return path if add_whole(path, write_class_text(order, remark)) else None


def _write(order: ClassOrder) -> Iterator[str]:
    yield f"people: {_list(order.people)}"
    yield f"minutes: {order.minutes}"
    yield f"coaches: {_list(order.coaches)}"
    if order.strands:  # none named means all
        yield f"strands: {_list(order.strands)}"
    if order.props:
        props = ", ".join(f"{quote_word(prop)}: {count}" for prop, count in order.props.items())
        yield f"props: {{{props}}}"


def _list(words: tuple[str, ...]) -> str:
    return f"[{', '.join(map(quote_word, words))}]"
