"""The course file to settings and vocabulary."""

from collections.abc import Collection
from dataclasses import dataclass, replace
from typing import Any

from builder import rules
from builder.course.base_poses import BASE_POSES
from builder.course.course import Colours, Scope, Settings, Studio
from builder.course.limits import LIMIT_NAMES, WHOLE_LIMITS, Limits, loosens
from builder.course.measure_words import list_words
from builder.course.reference_body import DEFAULT_BODIES, LungReference, ReferenceBody
from builder.course.trait import TRAITS, Trait
from builder.course.trust import Trust
from builder.course.vocabulary import (
    Better,
    Condition,
    Effort,
    Measure,
    Position,
    Prop,
    Strand,
    Vocabulary,
)
from builder.reading.known import HeaderCheck
from builder.reading.lesson_file import dotted
from builder.reading.schema import CourseHeader, LooserLimit, MeasurePart

WHOLE_COURSE = "whole-course"
"""The pack of the whole course lies beside those of the strands."""


@dataclass(frozen=True, slots=True)
class CourseFrame:
    """What the course file says."""

    settings: Settings
    vocabulary: Vocabulary
    traits: dict[str, Trait]
    reference_bodies: tuple[ReferenceBody, ...]


def make_frame(check: HeaderCheck, header: CourseHeader) -> CourseFrame:
    """Turn the course file's values into settings and vocabulary; problems go to the check."""
    traits = _make_traits(check, header)
    settings = Settings(
        title=header.title,
        summary=header.summary,
        language=header.language,
        paper=header.paper,
        is_archival=header.archive,
        address=header.address,
        studio=Studio(header.studio.name, header.studio.contact),
        colours=Colours(**header.colours.model_dump()),
        caution=header.caution,
        limits=_make_limits(check, header),
        path=check.path,
        positions=dotted(check.tree),
        languages=_make_languages(check, header),
        notices=None if header.notices is None else tuple(header.notices),
        trust=Trust(header.trust),
    )
    bodies = tuple(
        ReferenceBody(part.name, LungReference(part.sex), part.age, part.height_cm, part.weight_kg)
        for part in header.reference_bodies
    )
    return CourseFrame(
        settings, _make_vocabulary(check, header, traits), traits, bodies or DEFAULT_BODIES
    )


def _make_languages(check: HeaderCheck, header: CourseHeader) -> dict[str, Scope]:
    strands = [part.id for part in header.strands]
    languages: dict[str, Scope] = {}
    for tag, part in header.languages.items():
        wanted = strands if part.strands is None else part.strands
        known = [
            name
            for index, name in enumerate(wanted)
            if check.known(("languages", tag, "strands", index), name, strands)
        ]
        if tag == header.language:
            fact = f'"{tag}" is the course\'s own language'
            check.refuse(rules.VALUE_OUT_OF_RANGE, ("languages", tag), fact, "leave it out here")
            continue
        ordered = tuple(name for name in strands if name in known)
        languages[tag] = Scope(ordered, None if part.pages is None else tuple(part.pages))
    return languages


def _make_traits(check: HeaderCheck, header: CourseHeader) -> dict[str, Trait]:
    """Add the course's own traits; those of the tool may get a title, and keep their notice."""
    for name, part in header.traits.items():
        if name in TRAITS and TRAITS[name].needs_notice and not part.needs_notice:
            fact = f'every lesson with "{name}" needs a notice'
            way = ("traits", name, "needs_notice")
            check.refuse(rules.LIMIT_LOOSENED, way, fact, "leave needs_notice out")
    return TRAITS | {
        name: Trait(
            name, part.title, part.needs_notice or (name in TRAITS and TRAITS[name].needs_notice)
        )
        for name, part in header.traits.items()
    }


def _make_vocabulary(
    check: HeaderCheck, header: CourseHeader, traits: dict[str, Trait]
) -> Vocabulary:
    strands: dict[str, Strand] = {}
    for index, part in enumerate(header.strands):
        if part.id == WHOLE_COURSE:
            fact = f'"{part.id}" is kept for the pack of all strands'
            check.refuse(rules.ID_MALFORMED, ("strands", index, "id"), fact, "give it another id")
        if part.id in strands:
            fact = f'the strand "{part.id}" stands here again'
            check.refuse(rules.ID_DOUBLED, ("strands", index, "id"), fact, "give it another id")
        strands.setdefault(part.id, Strand(**part.model_dump()))
    positions = _make_positions(check, header, traits)
    return Vocabulary(
        strands=strands,
        positions=positions,
        families=_list_families(header, positions),
        props={
            name: Prop(
                id=name,
                title=part.title,
                stand_in=part.stand_in,
                load=part.load,
                traits=_traits(check, ("props", name, "traits"), part.traits, traits),
                class_set=part.class_set,
                on_floor=part.floor,
            )
            for name, part in header.props.items()
        },
        efforts={name: Effort(name, **part.model_dump()) for name, part in header.efforts.items()},
        conditions={name: Condition(name, part.title) for name, part in header.conditions.items()},
        measures={name: _make_measure(check, name, part) for name, part in header.measures.items()},
    )


def _make_measure(check: HeaderCheck, name: str, part: MeasurePart) -> Measure:
    """Return a measure; words such as "even, left first or right first" are never better."""
    measure = Measure(name, part.title, part.unit, part.sides, Better(part.better or Better.MORE))
    if not list_words(measure):
        return measure
    if part.better not in (None, Better.NONE):
        fact = f'better "{part.better}" is for numbers, and "{part.unit}" are words'
        check.refuse(rules.VALUE_OUT_OF_RANGE, ("measures", name, "better"), fact, "leave it out")
    return replace(measure, better=Better.NONE)


def _make_positions(
    check: HeaderCheck, header: CourseHeader, traits: dict[str, Trait]
) -> dict[str, Position]:
    return {
        name: Position(
            id=name,
            title=part.title,
            term=part.term,
            rank=part.rank,
            traits=_traits(check, ("positions", name, "traits"), part.traits, traits)
            | ({name, part.term} & TRAITS.keys()),
            on_floor=part.floor,
            balance=part.balance,
            pose=_pose(check, name, part.pose),
            family=_family(check, name, part.family, header.families),
        )
        for name, part in header.positions.items()
    }


def _family(check: HeaderCheck, position: str, family: str | None, known: Collection[str]) -> str:
    """Return the family of a position; empty, which is its own, where it names none that is known.

    A family that is named by the course is the only one that a position may name.
    """
    if family is None:
        return ""
    is_known = check.known(("positions", position, "family"), family, known)
    return family if is_known else ""


def _list_families(header: CourseHeader, positions: dict[str, Position]) -> dict[str, str]:
    """Return the families that the course names, then positions that are their own, by rank."""
    named = {name: part.title for name, part in header.families.items()}
    alone = sorted(
        (each for each in positions.values() if each.family not in named),
        key=lambda position: position.rank,
    )
    return named | {position.family: position.title for position in alone}


def _pose(check: HeaderCheck, position: str, pose: str) -> str:
    """Return the base pose of a position's figures; empty where it names none that is known."""
    is_known = pose and check.known(("positions", position, "pose"), pose, BASE_POSES)
    return pose if is_known else ""


def _traits(
    check: HeaderCheck, way: tuple[str, str, str], names: list[str], known: dict[str, Trait]
) -> frozenset[str]:
    return frozenset(
        name for index, name in enumerate(names) if check.known((*way, index), name, known)
    )


def _make_limits(check: HeaderCheck, header: CourseHeader) -> Limits:
    limits = Limits()
    for name, part in header.limits.items():
        if not check.known(("limits", name), name, LIMIT_NAMES):
            continue
        value = part.value if isinstance(part, LooserLimit) else part
        if loosens(name, value) and not isinstance(part, LooserLimit):
            default = getattr(Limits(), name)
            fact = f'"{name}" of {value:g} allows more than the tool\'s own {default:g}'
            cure = f"tighten it, or give {{value: {value:g}, reason: …}}"
            check.refuse(rules.LIMIT_LOOSENED, ("limits", name), fact, cure)
        if name not in WHOLE_LIMITS:
            limits = _set(limits, name, float(value))
        elif value == int(value):
            limits = _set(limits, name, int(value))
        else:
            fact = f'"{name}" is {value:g}, not a whole number'
            check.refuse(rules.WRONG_TYPE, ("limits", name), fact, "give a whole number")
    return limits


def _set(limits: Limits, name: str, value: float) -> Limits:
    changes: dict[str, Any] = {name: value}
    return replace(limits, **changes)
