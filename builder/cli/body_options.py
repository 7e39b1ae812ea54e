"""Options that describe a drill's effort and a body, shared by the commands that do sums."""

from collections.abc import Mapping, Sequence
from pathlib import Path
from typing import Annotated

import typer

from builder.course.course import Course
from builder.course.names import suggest
from builder.course.reference_body import LungReference, ReferenceBody
from builder.course.tempo import Tempo
from builder.course.vocabulary import Effort
from builder.errors import BuilderError, InvalidValueError
from builder.reading.course_folder import read_course
from builder.resources import find_starter

DEFAULT_EFFORT = "resting"
EffortOption = Annotated[
    str | None, typer.Option(help=f"An effort of the course; {DEFAULT_EFFORT} if none is named.")
]
MetOption = Annotated[float | None, typer.Option(help="MET, in place of an effort.")]
AgeOption = Annotated[float | None, typer.Option(help="Years, 18 to 80.")]
HeightOption = Annotated[float | None, typer.Option(help="Centimetres, 140 to 220.")]
WeightOption = Annotated[float | None, typer.Option(help="Kilograms, 30 to 250.")]
LungOption = Annotated[
    LungReference | None, typer.Option(help="Which published lung equations to compare with.")
]


def read_words(project: Path) -> Course:
    """Return the course of a folder, or the starter where the folder has none, and say so."""
    if not project.is_dir():
        raise BuilderError(f'there is no folder "{project}"', "name the one that holds content/")
    folder = project
    if not (project / "content" / "course.yml").is_file():
        folder = find_starter().parent
        typer.echo("no course here: the starter's efforts and bodies are taken.", err=True)
    course = read_course(folder).course
    if course is None:
        raise BuilderError("the course can't be read", "see: tempoleaf check")
    return course


def parse_tempo(text: str) -> Tempo:
    """Return the tempo of a word on the command line."""
    try:
        return Tempo.parse(text)
    except InvalidValueError as error:
        raise BuilderError(error.fact, error.cure) from error


def choose_effort(efforts: Mapping[str, Effort], given: str | None, met: float | None) -> Effort:
    """Return the effort that was named, or one of a plain MET value, but never guess of both."""
    if given is not None and met is not None:
        raise BuilderError("both --effort and --met are given", "leave one of them out")
    if met is not None:
        return Effort("as given", met, "given by hand", "")
    name = given or DEFAULT_EFFORT
    effort = efforts.get(name)
    if effort is None:
        cure = suggest(name, efforts) or f"take one of {', '.join(efforts)}, or give --met"
        raise BuilderError(f'the course has no effort "{name}"', cure)
    return effort


def choose_bodies(
    course: Course,
    lung_reference: LungReference | None,
    age: float | None,
    height: float | None,
    weight: float | None,
) -> Sequence[ReferenceBody]:
    """Return the body that was described, or the course's reference bodies where none was."""
    given = {"--lung-reference": lung_reference, "--age": age, "--height": height}
    given |= {"--weight": weight}
    missing = [name for name, value in given.items() if value is None]
    if len(missing) == len(given):
        return course.reference_bodies
    if lung_reference is None or age is None or height is None or weight is None:
        raise BuilderError(
            f"a body needs {' and '.join(missing)} too",
            "give all four, or none for the course's reference bodies",
        )
    try:
        return (ReferenceBody("a body", lung_reference, age, height, weight),)
    except InvalidValueError as error:
        raise BuilderError(error.fact, error.cure) from error
