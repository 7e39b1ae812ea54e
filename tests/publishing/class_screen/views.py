"""A class of two people in three blocks, made by hand from lessons of the starter course."""

from dataclasses import replace
from datetime import date

from builder.course.dose import Dose, Sides
from builder.course.measure_words import list_words
from builder.course.tempo import Tempo
from builder.publishing.views.class_view import (
    BlockView,
    ClassView,
    NotThisView,
    OtherView,
    RecordView,
    TurnView,
)
from builder.sums.schedule import make_plan
from tests.planning.starter import read_starter

DAY = date(2026, 11, 24)
NAMES = {"C5": "Ffion Treharwyn", "C6": "Naledi <Tshwarang>", "C7": "Yūto Kazemori"}
NOT_CHECKED = NotThisView("comfortable-hold", "Comfortable hold", "new to them", is_barred=False)
BARRED = NotThisView("belly-breath", "Belly breath", "the notice leaves it out", is_barred=True)
TIMED = "breath-hold-seconds"


def make_turn(person: str, lesson_id: str, **changes: object) -> TurnView:
    """Make somebody's turn of a lesson of the starter course."""
    lesson = read_starter().by_id[lesson_id]
    tempo, dose = lesson.drill.tempo, lesson.drill.dose
    turn = TurnView(
        person_id=person,
        name=NAMES[person],
        lesson_id=lesson_id,
        title=lesson.title,
        position=lesson.drill.position.title,
        tempo=tempo,
        dose=dose,
        dose_text="as the lesson says",
        rest_seconds=dose.rest_seconds if isinstance(dose, Dose) else 0,
        seconds=make_plan(tempo, dose).end_ms // 1000,
        first_side="right" if isinstance(dose, Dose) and dose.sides is Sides.EACH else "",
        side_text="",
        look_at="The shoulders rise: start again, smaller",
        ready_when=lesson.words.ready_when,
        stop_if=lesson.words.stop_if,
        cue_inhale="",
        cue_exhale="",
        has_close_look=person == "C5",
        is_new=False,
        keeps_own_pace=False,
        cautions=("Sit on a chair",) if person == "C6" else (),
        caution_words=("another way",) if person == "C6" else (),
        props=(("mat", 1),),
        records=tuple(
            RecordView(
                each.id,
                each.title,
                each.unit,
                each.has_sides,
                list_words(each),
                is_timed=each.id == TIMED,
            )
            for each in lesson.measures
        ),
        figure=lesson.figure,
    )
    return replace(turn, **changes)  # type: ignore[arg-type]  # names are the turn's own


def make_block(number: int, minutes: int, rest: int, *turns: TurnView) -> BlockView:
    tempos = [turn.tempo for turn in turns if turn.tempo]
    return BlockView(
        number=number,
        start_seconds=(number - 1) * 240,
        minutes=minutes,
        rest_seconds=rest,
        count=str(tempos[0]) if tempos else "own pace",
        tempo=tempos[0] if tempos else None,
        family="lying down",
        is_loaded=rest > 0,
        props=(("mat", len(turns)),),
        turns=turns,
    )


def make_view(**changes: object) -> ClassView:
    """Make the class: its own pace, a count that all share, and one that not all share."""
    blocks = (
        make_block(
            1, 2, 0, make_turn("C5", "hands-check-lying"), make_turn("C6", "comfortable-hold")
        ),
        make_block(2, 3, 60, make_turn("C5", "even-count"), make_turn("C6", "even-count")),
        make_block(
            *(3, 3, 0),
            make_turn("C5", "side-lying-rotation-hold"),
            make_turn("C6", "belly-breath", keeps_own_pace=True),
        ),
    )
    view = ClassView(
        title="2026-11-24-mixed",
        day=DAY,
        name="mixed",
        note="",
        minutes=30,
        seconds=800,
        coaches=("K1",),
        people=(("C5", NAMES["C5"]), ("C6", NAMES["C6"])),
        blocks=blocks,
        spare=(),
        drop=(3,),
        props=(("mat", 2),),
        cautions=(("C6", ("Sit on a chair",)),),
        language="en-GB",
        studio="Saltmarsh Studio",
        accent="#1f5e5b",
        caution="This is general exercise, not medical advice.",
        others=(
            OtherView(
                "C7",
                NAMES["C7"],
                turns=((), (make_turn("C7", "even-count"),), ()),
                not_these=((NOT_CHECKED,), (), (BARRED,)),
                cautions=("sore knee: no kneeling",),
            ),
        ),
    )
    return replace(view, **changes)  # type: ignore[arg-type]  # names are the view's own


COUNT = Tempo.parse("4-1-4-1")
