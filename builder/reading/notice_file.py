"""A notice file to a Notice."""

from collections.abc import Collection
from datetime import date

from builder import rules
from builder.course.notice import Action, Instead, Notice, Source
from builder.course.trait import find_place_traits
from builder.course.vocabulary import PropUse, Vocabulary
from builder.findings import Finding, Place
from builder.input_limits import PASSAGE_CHARACTERS
from builder.reading.known import HeaderCheck
from builder.reading.lesson_file import dotted
from builder.reading.schema import NoticeHeader
from builder.reading.text_file import TextFile
from builder.reading.validation import validate
from builder.reading.yaml_tree import read_yaml
from builder.rules.excess import tell_excess


def read_notice(
    file: TextFile, traits: Collection[str], vocabulary: Vocabulary, today: date
) -> tuple[Notice | None, list[Finding]]:
    """Read a notice; return None with all findings where any part of it is wrong."""
    tree, findings = read_yaml(file.header, file.path, file.header_line)
    if tree is None:
        return None, findings
    header, schema_findings = validate(tree, NoticeHeader, file.path)
    findings += schema_findings
    if header is None:
        return None, findings
    check = HeaderCheck(tree, file.path, today)
    _check(check, header, file)
    known_traits = frozenset(check.all_known("traits", header.traits, traits))
    known_conditions = tuple(
        check.all_known("conditions", header.conditions, vocabulary.conditions)
    )
    instead = _make_instead(check, header, vocabulary)
    reviewed = check.review(header.reviewed) if header.reviewed else None
    findings += check.findings
    if findings:
        return None, findings
    return (
        Notice(
            id=file.path.rpartition("/")[2].removesuffix(".md"),
            title=header.title,
            action=Action(header.action),
            traits=known_traits,
            everywhere=header.everywhere,
            conditions=known_conditions,
            short=header.short,
            long=file.body.strip(),
            adapt=header.adapt.strip(),
            sources=tuple(Source(**part.model_dump()) for part in header.sources),
            reviewed=reviewed,
            place=Place(file.path),
            positions=dotted(tree),
            long_line=find_long_line(file),
            instead=instead,
        ),
        [],
    )


def find_long_line(file: TextFile) -> int:
    """Return the line on which a notice's long text begins."""
    body = file.body
    return file.body_line + body[: len(body) - len(body.lstrip())].count("\n")


def _make_instead(
    check: HeaderCheck, header: NoticeHeader, vocabulary: Vocabulary
) -> Instead | None:
    part, positions, props = header.instead, vocabulary.positions, vocabulary.props
    if part is None:
        return None
    uses = tuple(
        PropUse(props[name], count)
        for name, count in part.props.items()
        if check.known(("instead", "props", name), name, props)
    )
    if not check.known(("instead", "position"), part.position, positions):
        return None
    instead = Instead(positions[part.position], uses)
    _check_instead(check, header, instead)
    return instead


def _check_instead(check: HeaderCheck, header: NoticeHeader, instead: Instead) -> None:
    """Refuse a way out that leads nowhere: in silence, people would go on as they were."""
    if Action(header.action) is not Action.ADAPT:
        fact = f'only a notice that adapts moves a lesson, and this one has "{header.action}"'
        cure = "leave instead out, or take action: adapt"
        check.refuse(rules.VALUE_OUT_OF_RANGE, ("instead",), fact, cure)
    if header.everywhere:
        fact = "a notice that stands everywhere leaves no position to move to"
        cure = "leave instead out, or give traits in place of everywhere"
        check.refuse(rules.VALUE_OUT_OF_RANGE, ("instead",), fact, cure)
    kept = find_place_traits(instead.position, instead.props).intersection(header.traits)
    if kept:
        fact = f'"{min(kept)}" is what the notice warns of, and instead has it too'
        cure = "name a position and props without it"
        check.refuse(rules.VALUE_OUT_OF_RANGE, ("instead",), fact, cure)


def _check(check: HeaderCheck, header: NoticeHeader, file: TextFile) -> None:
    stem = file.path.rpartition("/")[2].removesuffix(".md")
    if header.id is not None and header.id != stem:
        fact = f'the id "{header.id}" is unlike the file name "{stem}"'
        check.refuse(rules.ID_MALFORMED, ("id",), fact, "leave the id out: the file name is the id")
    if bool(header.traits) is header.everywhere:
        fact = "a notice stands either everywhere or on lessons with certain traits"
        check.refuse(rules.VALUE_OUT_OF_RANGE, ("title",), fact, "give traits, or everywhere: true")
    longest = max(map(len, file.body.split("\n\n")))
    if longest > PASSAGE_CHARACTERS.most:
        place = Place(file.path, file.body_line)
        excess = tell_excess(place, PASSAGE_CHARACTERS, longest, "part it", "a paragraph")
        check.findings.append(excess)
    if not file.body.strip():
        place = Place(file.path, file.body_line)
        fact, cure = "the long text is missing", "write it below the header"
        check.findings.append(rules.BODY_MALFORMED.at(place, fact, cure))
