"""Where a coach's records answer the questions of the placement table, and whether that holds."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise

from builder import rules
from builder.course.lesson import Lesson
from builder.course.measure_words import list_words
from builder.course.placement import Evidence
from builder.course.vocabulary import Measure, Vocabulary
from builder.reading.known import HeaderCheck
from builder.reading.placement_schema import QuestionPart
from builder.reading.yaml_tree import Way

_SECONDS = "s"
"""The unit of a measure that can answer a timed question."""


@dataclass(frozen=True, slots=True)
class PlacementNames:
    """What a placement table may name."""

    strands: Mapping[str, frozenset[str]]
    """Strand to its lessons; those that can't be read may lie in any."""
    measures: Mapping[str, Measure]
    measured_in: Mapping[str, frozenset[str]]
    """Lesson to the measures that it records; lessons that can't be read are left out."""
    conditions: Collection[str]
    traits: Collection[str] = ()

    @property
    def lessons(self) -> frozenset[str]:
        """Return the lessons of all strands."""
        return frozenset().union(*self.strands.values())


def name_for_placement(
    vocabulary: Vocabulary,
    lessons: Collection[Lesson],
    unreadable: Collection[str],
    traits: Collection[str] = (),
) -> PlacementNames:
    """Gather what a course's table may name."""
    strands = {
        strand: frozenset(unreadable)
        | {lesson.id for lesson in lessons if lesson.strand.id == strand}
        for strand in vocabulary.strands
    }
    measured_in = {
        lesson.id: frozenset(measure.id for measure in lesson.measures) for lesson in lessons
    }
    return PlacementNames(strands, vocabulary.measures, measured_in, vocabulary.conditions, traits)


def check_evidence(
    check: HeaderCheck, way: Way, question: QuestionPart, names: PlacementNames
) -> None:
    """Note what is wrong with the records that should answer a question."""
    if question.measure:
        _check_measure(check, way, question, names)
    elif question.words:
        fact = f'the question "{question.id}" has words but no measure that says them'
        check.refuse(rules.VALUE_OUT_OF_RANGE, (*way, "words"), fact, "name it in measure")
    _check_conditions(check, way, question, names)
    for answer, traits in question.bars.items():
        if check.known((*way, "bars", answer), answer, question.answers):
            for index, trait in enumerate(traits):
                check.known((*way, "bars", answer, index), trait, names.traits)
    for answer, lesson in question.ready.items():
        if check.known((*way, "ready", answer), answer, question.answers):
            check.known((*way, "ready", answer), lesson, names.lessons)
    if question.otherwise:
        check.known((*way, "otherwise"), question.otherwise, question.answers)
    elif question.ready:
        fact = f'the question "{question.id}" has no answer for who is ready in none of these'
        cure = "name the most careful answer in otherwise"
        check.refuse(rules.VALUE_OUT_OF_RANGE, (*way, "ready"), fact, cure)


def make_evidence(question: QuestionPart, names: PlacementNames) -> Evidence:
    """Make the value of a question that was checked."""
    words: dict[str, str] = {}
    if question.measure and not question.timed:
        spoken = list_words(names.measures[question.measure])
        words = {word: word for word in spoken} | question.words
    return Evidence(
        question.measure,
        words,
        {answer: tuple(named) for answer, named in question.conditions.items()},
        dict(question.ready),
        question.otherwise,
        {answer: frozenset(traits) for answer, traits in question.bars.items()},
    )


def _check_measure(
    check: HeaderCheck, way: Way, question: QuestionPart, names: PlacementNames
) -> None:
    place = (*way, "measure")
    if not check.known(place, question.measure, names.measures):
        return
    measure = names.measures[question.measure]
    for fact, cure in _list_misfits(question, measure, names):
        check.refuse(rules.VALUE_OUT_OF_RANGE, place, fact, cure)
    if not question.timed:
        _check_words(check, way, question, measure)


def _list_misfits(
    question: QuestionPart, measure: Measure, names: PlacementNames
) -> Iterator[tuple[str, str]]:
    """Yield why a measure can't answer a question, each with its cure."""
    if not question.lesson:
        fact = f'the question "{question.id}" names a measure but no lesson in which it is read'
        yield fact, "add the lesson"
    elif measure.id not in names.measured_in.get(question.lesson, {measure.id}):
        fact = f'the lesson "{question.lesson}" doesn\'t record "{measure.id}"'
        yield fact, "name a measure of that lesson"
    if measure.has_sides:
        yield f'"{measure.id}" is read on each side', "name a measure without sides"
    if question.timed and measure.unit != _SECONDS:
        fact = f'the question "{question.id}" is timed, and "{measure.id}" is not in seconds'
        yield fact, f"name a measure whose unit is {_SECONDS}"


def _check_words(check: HeaderCheck, way: Way, question: QuestionPart, measure: Measure) -> None:
    spoken = list_words(measure)
    if not spoken:
        fact = f'"{measure.id}" is read in numbers, and the question "{question.id}" is not timed'
        cure = 'name a measure whose unit lists words, such as "chest, belly or both"'
        check.refuse(rules.VALUE_OUT_OF_RANGE, (*way, "measure"), fact, cure)
        return
    for word, answer in question.words.items():
        if check.known((*way, "words", word), word, spoken):
            check.known((*way, "words", word), answer, question.answers)
    for word in spoken:
        if word not in question.answers and word not in question.words:
            fact = f'the word "{word}" of "{measure.id}" leads to no answer'
            cure = f'add it to words, such as {{"{word}": {next(iter(question.answers), "…")}}}'
            check.refuse(rules.VALUE_OUT_OF_RANGE, (*way, "measure"), fact, cure)


def _check_conditions(
    check: HeaderCheck, way: Way, question: QuestionPart, names: PlacementNames
) -> None:
    """Conditions never make an answer less careful, so the order of answers has to tell which."""
    place = (*way, "conditions")
    known = [
        answer
        for answer in question.conditions
        if check.known((*place, answer), answer, question.answers)
    ]
    for answer, conditions in question.conditions.items():
        for index, name in enumerate(conditions):
            check.known((*place, answer, index), name, names.conditions)
    order = [list(question.answers).index(answer) for answer in known]
    if 0 in order:
        fact = f'"{known[order.index(0)]}" is the first answer, and conditions give it'
        cure = "put the answers in order, from the easiest to the most careful"
        check.refuse(rules.VALUE_OUT_OF_RANGE, place, fact, cure)
    elif any(earlier < later for earlier, later in pairwise(order)):
        fact = f'the conditions of "{question.id}" don\'t begin with the most careful answer'
        cure = "list them from the last answer to the first"
        check.refuse(rules.VALUE_OUT_OF_RANGE, place, fact, cure)
