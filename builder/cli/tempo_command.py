"""`tempoleaf tempo`: work out what a count asks of a body."""

from pathlib import Path
from typing import Annotated

import typer

from builder.cli.body_options import (
    AgeOption,
    EffortOption,
    HeightOption,
    LungOption,
    MetOption,
    WeightOption,
    choose_bodies,
    choose_effort,
    parse_tempo,
    read_words,
)
from builder.cli.folder_options import JsonOption, ProjectOption
from builder.errors import BuilderError
from builder.report.tempo_sums import work_out_tempo, write_tempo_json, write_tempo_sums
from builder.sums.validity import OutsideValidityError


def tempo(  # noqa: PLR0913  # each is an option of the command
    count: Annotated[str, typer.Argument(help="Inhale, hold, exhale, hold: 4-1-4-1.")],
    *,
    effort: EffortOption = None,
    met: MetOption = None,
    lung_reference: LungOption = None,
    age: AgeOption = None,
    height: HeightOption = None,
    weight: WeightOption = None,
    breaths: Annotated[int, typer.Option(help="Breaths in a set.", min=1, max=60)] = 6,
    project: ProjectOption = Path(),
    as_json: JsonOption = False,
) -> None:
    """Print rate, time and the breath that a count needs, with better counts and all sources.

    Without a body, the course's reference bodies are taken. It speaks of counts, never of
    anybody's health. Exit code 0, or 2 for what the sums aren't made for.
    """
    course = read_words(project)
    bodies = choose_bodies(course, lung_reference, age, height, weight)
    chosen = choose_effort(course.vocabulary.efforts, effort, met)
    try:
        sums = work_out_tempo(parse_tempo(count), chosen, bodies, breaths)
    except OutsideValidityError as error:
        raise BuilderError(
            str(error), "give a value within the range, or a lighter effort"
        ) from error
    print(write_tempo_json(sums) if as_json else write_tempo_sums(sums))
