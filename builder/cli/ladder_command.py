"""`tempoleaf ladder`: the rungs from a person's comfortable breath to a target."""

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
from builder.report.ladder_table import write_ladder, write_ladder_json
from builder.sums.ladder import climb_to
from builder.sums.validity import OutsideValidityError


def ladder(  # noqa: PLR0913  # each is an option of the command
    target: Annotated[str, typer.Argument(help="The tempo to reach: 4-1-6-1.")],
    *,
    easy: Annotated[float, typer.Option(help="Longest easy breath today, in seconds.")],
    hold: Annotated[
        float | None, typer.Option(help="Comfortable hold, in seconds; none allows pauses only.")
    ] = None,
    effort: EffortOption = None,
    met: MetOption = None,
    lung_reference: LungOption = None,
    age: AgeOption = None,
    height: HeightOption = None,
    weight: WeightOption = None,
    project: ProjectOption = Path(),
    as_json: JsonOption = False,
) -> None:
    """Print small steps from today's easy breath to a target tempo, for one person.

    Each is at most a tenth longer. Half of the comfortable hold and the air check end it early;
    without a body, it must suit all of the course's reference bodies. Exit code 0, or 2 for what
    the sums aren't made for.
    """
    course = read_words(project)
    bodies = choose_bodies(course, lung_reference, age, height, weight)
    chosen = choose_effort(course.vocabulary.efforts, effort, met)
    try:
        climbed = climb_to(
            parse_tempo(target),
            easy,
            effort_met=chosen.met,
            bodies=bodies,
            comfortable_hold_seconds=hold,
        )
    except OutsideValidityError as error:
        raise BuilderError(
            str(error), "give a value within the range, or a lighter effort"
        ) from error
    print(write_ladder_json(climbed) if as_json else write_ladder(climbed))
