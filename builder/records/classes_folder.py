"""Class files and files for several weeks of a program folder, with every problem of every file."""

from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from builder.findings import Finding
from builder.records.class_file import read_class
from builder.records.class_order import ClassOrder
from builder.records.folder import CLASSES
from builder.records.inner_file import list_inner_files, open_text, show_inner_path
from builder.records.known import Known
from builder.records.weeks_file import read_weeks
from builder.records.weeks_order import WeeksOrder

COURSES = "courses"
_Order = TypeVar("_Order", ClassOrder, WeeksOrder)
_Read = Callable[[str, str, Known], tuple[_Order | None, list[Finding]]]


def read_classes(program: Path, known: Known) -> tuple[tuple[ClassOrder, ...], list[Finding]]:
    """Read every class file of a program folder; classes are in order of day and name."""
    paths, findings = list_inner_files(program, CLASSES)
    orders, faults = _read_each(read_class, program, paths, known)
    ordered = sorted(orders, key=lambda order: (order.day, order.name))
    return tuple(ordered), [*findings, *faults]


def read_courses(program: Path, known: Known) -> tuple[tuple[WeeksOrder, ...], list[Finding]]:
    """Read every file for several weeks of a program folder, in order of first day and name."""
    paths, findings = list_inner_files(program, COURSES)
    orders, faults = _read_each(read_weeks, program, paths, known)
    ordered = sorted(orders, key=lambda order: (order.first_day, order.name))
    return tuple(ordered), [*findings, *faults]


def read_class_file(
    program: Path, path: Path, known: Known
) -> tuple[ClassOrder | None, list[Finding]]:
    """Read one class file of a program folder; BuilderError where it lies elsewhere."""
    orders, findings = _read_each(read_class, program, (path,), known)
    return next(iter(orders), None), findings


def read_weeks_file(
    program: Path, path: Path, known: Known
) -> tuple[WeeksOrder | None, list[Finding]]:
    """Read one file for several weeks of a program folder; BuilderError where it lies elsewhere."""
    orders, findings = _read_each(read_weeks, program, (path,), known)
    return next(iter(orders), None), findings


def _read_each(
    read: _Read[_Order],
    program: Path,
    paths: tuple[Path, ...],
    known: Known,
) -> tuple[list[_Order], list[Finding]]:
    orders: list[_Order] = []
    findings: list[Finding] = []
    for path in paths:
        text, faults = open_text(program, path)
        findings += faults
        if text is not None:
            order, faults = read(text, show_inner_path(program, path), known)
            findings += faults
            orders += [order] if order else []
    return orders, findings
