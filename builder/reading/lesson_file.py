"""A lesson file to a Lesson."""

from collections.abc import Mapping
from datetime import date

from builder import rules
from builder.course.dose import Dose, Sides, TimedDose
from builder.course.lesson import Cues, Drill, Lesson, Limb, Passage, Range, Waiver, Words
from builder.course.trait import Trait
from builder.course.trust import IMPORTED
from builder.course.vocabulary import PropUse, Vocabulary
from builder.findings import Finding
from builder.reading import body
from builder.reading.figure_reading import make_figure
from builder.reading.known import HeaderCheck
from builder.reading.schema import DosePart, LessonHeader
from builder.reading.text_file import TextFile
from builder.reading.translation.schema import LessonWordsHeader
from builder.reading.validation import validate
from builder.reading.yaml_tree import YamlTree, read_yaml


def read_lesson(
    file: TextFile, vocabulary: Vocabulary, traits: Mapping[str, Trait], today: date
) -> tuple[Lesson | None, list[Finding]]:
    """Read a lesson; return None with all findings where any part of it is wrong."""
    sections, findings = body.read_sections(file)
    tree, header_findings = read_yaml(file.header, file.path, file.header_line)
    findings += header_findings
    if tree is None:
        return None, findings
    header, schema_findings = validate(tree, LessonHeader, file.path)
    findings += schema_findings
    if header is None:
        return None, findings
    check = HeaderCheck(tree, file.path, today)
    _check_file(check, header, file.path)
    lesson = _make(check, header, sections, (vocabulary, traits))
    findings += check.findings
    return (None if findings else lesson), findings


def _check_file(check: HeaderCheck, header: LessonHeader, path: str) -> None:
    folder, _, name = path.rpartition("/")
    folder = folder.rpartition("lessons/")[2].removeprefix(f"{IMPORTED}/") or "lessons"
    stem = name.removesuffix(".md")
    if header.id is not None and header.id != stem:
        fact = f'the id "{header.id}" is unlike the file name "{stem}"'
        check.refuse(rules.ID_MALFORMED, ("id",), fact, "leave the id out: the file name is the id")
    if folder != header.strand:
        fact = f'the strand is "{header.strand}", the folder "{folder}"'
        check.refuse(rules.FILE_MISPLACED, ("strand",), fact, "move the file or change the strand")


def _make(
    check: HeaderCheck,
    header: LessonHeader,
    sections: Mapping[str, tuple[Passage, ...]],
    known: tuple[Vocabulary, Mapping[str, Trait]],
) -> Lesson | None:
    vocabulary, traits = known
    drill = _make_drill(check, header, vocabulary, traits)
    measures = list(check.all_known("measures", header.measures, vocabulary.measures))
    for rule_id in header.allow:
        check.known(("allow", rule_id), rule_id, rules.RULES_BY_ID)
    waivers = tuple(
        Waiver(name, part.reason, check.review_of_waiver(name, part))
        for name, part in header.waive.items()
    )
    reviewed = check.review(header.reviewed) if header.reviewed else None
    if not check.known(("strand",), header.strand, vocabulary.strands) or drill is None:
        return None
    figure = make_figure(check, header.figure, drill.position, drill.props)
    return Lesson(
        id=check.path.rpartition("/")[2].removesuffix(".md"),
        title=header.title,
        summary=header.summary,
        strand=vocabulary.strands[header.strand],
        level=header.level,
        drill=drill,
        words=make_words(header, sections),
        builds_on=tuple(header.builds_on),
        easier=tuple(header.easier),
        harder=tuple(header.harder),
        measures=tuple(vocabulary.measures[name] for name in measures),
        ladder=tuple(header.ladder),
        waivers=waivers,
        allowed=dict(header.allow),
        reviewed=reviewed,
        figure=figure,
        path=check.path,
        positions=dotted(check.tree),
        was=tuple(header.was),
    )


def dotted(tree: YamlTree) -> dict[str, tuple[int, int]]:
    """Return the places of a header's values by dotted key."""
    return {".".join(map(str, way)): spot for way, spot in tree.places.items() if way}


def _make_drill(
    check: HeaderCheck,
    header: LessonHeader,
    vocabulary: Vocabulary,
    traits: Mapping[str, Trait],
) -> Drill | None:
    position = check.known(("position",), header.position, vocabulary.positions)
    effort = check.known(("effort",), header.effort, vocabulary.efforts)
    props = [
        PropUse(vocabulary.props[name], count)
        for name, count in header.props.items()
        if check.known(("props", name), name, vocabulary.props)
    ]
    named = frozenset(check.all_known("traits", header.traits, traits))
    dose = _make_dose(check, header.dose)
    moving = tuple(Limb(name) for name in header.moving)
    if not position or not effort or dose is None:
        return None
    return Drill(
        position=vocabulary.positions[header.position],
        tempo=header.tempo,
        dose=dose,
        effort=vocabulary.efforts[header.effort],
        props=tuple(props),
        moving=moving,
        at_once=_limbs_at_once(check, header, moving),
        range=Range(header.range or ("small" if moving else "none")),
        named_traits=named,
    )


def _limbs_at_once(check: HeaderCheck, header: LessonHeader, moving: tuple[Limb, ...]) -> int:
    limbs = len(set(moving) - {Limb.TRUNK})
    if header.at_once is not None and header.at_once > limbs:
        fact = f"{header.at_once} limbs at once, but {limbs} in moving"
        check.refuse(rules.VALUE_OUT_OF_RANGE, ("at_once",), fact, "name the limbs in moving")
    return limbs if header.at_once is None else header.at_once


def _make_dose(check: HeaderCheck, part: DosePart) -> Dose | TimedDose | None:
    counted = part.sets is not None or part.breaths is not None
    if part.minutes is not None and not counted:
        return TimedDose(part.minutes)
    if part.minutes is None and part.sets is not None and part.breaths is not None:
        return Dose(part.sets, part.breaths, part.rest, Sides(part.sides))
    fact = "the dose gives neither sets and breaths nor minutes alone"
    cure = "give {sets: 2, breaths: 6, rest: 30}, or {minutes: 5} where nothing is counted"
    check.refuse(rules.VALUE_OUT_OF_RANGE, ("dose",), fact, cure)
    return None


def make_words(
    header: LessonHeader | LessonWordsHeader, sections: Mapping[str, tuple[Passage, ...]]
) -> Words:
    """Put together what a lesson says, in its own language or another."""
    filled = {
        title: tuple(passage for passage in passages if passage.text)
        for title, passages in sections.items()
    }
    return Words(
        set_up=filled[body.SET_UP],
        steps=filled[body.STEPS],
        if_hard=filled[body.IF_HARD],
        coach_notes=filled[body.COACH_NOTES],
        cues=Cues(header.cues.inhale, header.cues.exhale) if header.cues else None,
        watch_for=tuple(header.watch_for),
        ready_when=tuple(header.ready_when),
        stop_if=tuple(header.stop_if),
    )
