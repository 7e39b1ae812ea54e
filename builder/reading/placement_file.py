"""The placement table of a course: where people start, by their answers."""

from datetime import date

from builder import rules
from builder.course.placement import Condition, Placement, Question, StrandStart, Way
from builder.findings import Finding
from builder.reading.evidence import PlacementNames, check_evidence, make_evidence
from builder.reading.known import HeaderCheck
from builder.reading.placement_schema import (
    PlacementFile,
    QuestionPart,
    SecondsPart,
    StrandStartPart,
    WayPart,
)
from builder.reading.validation import read_validated

PLACEMENT_FILE = "placement.yml"


def read_placement(
    text: str, path: str, names: PlacementNames, today: date
) -> tuple[Placement | None, list[Finding]]:
    """Read the table; return None with all findings where any part of it is wrong."""
    tree, file, findings = read_validated(text, path, PlacementFile)
    if tree is None or file is None:
        return None, findings
    check = HeaderCheck(tree, path, today)
    _check_questions(check, file, names)
    _check_starts(check, file, names)
    findings += check.findings
    return (None if findings else _make(file, names)), findings


def _check_questions(check: HeaderCheck, file: PlacementFile, names: PlacementNames) -> None:
    seen: set[str] = set()
    for index, question in enumerate(file.questions):
        way = ("questions", index)
        if question.id in seen:
            fact = f'the question "{question.id}" is asked twice'
            check.refuse(rules.ID_DOUBLED, (*way, "id"), fact, "give one of them another id")
        seen.add(question.id)
        if question.lesson:
            check.known((*way, "lesson"), question.lesson, names.lessons)
        if question.timed == bool(question.answers):
            words = "both answers and a time" if question.timed else "neither answers nor a time"
            fact = f'the question "{question.id}" has {words}'
            cure = "give either answers or timed: true"
            check.refuse(rules.VALUE_OUT_OF_RANGE, way, fact, cure)
        check_evidence(check, way, question, names)


def _check_starts(check: HeaderCheck, file: PlacementFile, names: PlacementNames) -> None:
    questions = {question.id: question for question in file.questions}
    for index, start in enumerate(file.start):
        if not check.known(("start", index, "strand"), start.strand, names.strands):
            continue
        for at, way in enumerate(start.ways):
            place = ("start", index, "ways", at)
            if way.lesson:
                check.known((*place, "lesson"), way.lesson, names.strands[start.strand])
            for name, wanted in way.when.items():
                if check.known((*place, "when", name), name, questions):
                    _check_answers(check, (*place, "when", name), questions[name], wanted)
        if start.ways[-1].when:
            fact = f'the last way into "{start.strand}" doesn\'t fit everybody'
            cure = "add one without `when`"
            check.refuse(rules.VALUE_OUT_OF_RANGE, ("start", index, "ways"), fact, cure)


def _check_answers(
    check: HeaderCheck,
    way: tuple[str | int, ...],
    question: QuestionPart,
    wanted: list[str] | SecondsPart,
) -> None:
    if isinstance(wanted, SecondsPart) != question.timed:
        fact = f'the question "{question.id}" is {"" if question.timed else "not "}timed'
        cure = "give {under: 8} or {least: 8}" if question.timed else "give a list of answers"
        check.refuse(rules.VALUE_OUT_OF_RANGE, way, fact, cure)
    elif wanted == SecondsPart():
        fact = f'the question "{question.id}" is given no bound'
        check.refuse(rules.VALUE_OUT_OF_RANGE, way, fact, "give {under: 8} or {least: 8}")
    elif isinstance(wanted, list):
        for index, answer in enumerate(wanted):
            check.known((*way, index), answer, question.answers)


def _make(file: PlacementFile, names: PlacementNames) -> Placement:
    questions = tuple(
        Question(
            *(part.id, part.text, part.lesson, dict(part.answers), part.timed),
            evidence=make_evidence(part, names),
        )
        for part in file.questions
    )
    starts = tuple(_make_start(part) for part in file.start)
    return Placement(tuple(file.ask_first), questions, starts)


def _make_start(part: StrandStartPart) -> StrandStart:
    return StrandStart(part.strand, tuple(_make_way(way) for way in part.ways))


def _make_way(part: WayPart) -> Way:
    conditions = tuple(
        Condition(name, from_seconds=wanted.least, under_seconds=wanted.under)
        if isinstance(wanted, SecondsPart)
        else Condition(name, frozenset(wanted))
        for name, wanted in part.when.items()
    )
    return Way(conditions, part.lesson, part.why)
