import pytest

from builder.course.dose import Dose, Sides, TimedDose
from builder.course.lesson import Drill
from builder.course.tempo import Tempo
from builder.course.trait import find_traits
from builder.course.vocabulary import Effort, Position
from builder.sums.schedule import NATURAL_CYCLE_MS
from builder.sums.timing import rate_per_minute, time_drill

SUPINE = Position("supine", "lying on the back", "supine", 0)
RESTING = Effort("resting", 1.3, "Compendium 2011", "07011")


def drill(tempo, dose):
    return Drill(SUPINE, Tempo.parse(tempo) if tempo else None, dose, RESTING)


@pytest.mark.parametrize(
    ("tempo", "rate"),
    [
        # rate = 60 / cycle; 6 a minute is the resonance rate of most adults: Steffen et al.,
        # Frontiers in Public Health 5:222, 2017.
        ("5-0-5-0", 6),
        ("4-1-4-1", 6),
        ("4-0-4-0", 7.5),
        ("5.5-0-5.5-0", 5.4545),
        ("4-2-4-2", 5),
        ("4-4-4-4", 3.75),
        ("3-0-6-0", 6.6667),
    ],
)
def test_rate_is_sixty_by_the_cycle(tempo, rate):
    assert rate_per_minute(Tempo.parse(tempo)) == pytest.approx(rate, abs=5e-5)


@pytest.mark.parametrize(
    ("tempo", "trait"),
    [
        # Slow: 4 to 10 a minute: Russo, Santarelli, O'Rourke, Breathe 13:298, 2017.
        # Resting adult 12 to 20, raised from 21: Royal College of Physicians, NEWS2, 2017.
        ("3-0-3-0", "slow-breathing"),  # 10 a minute
        ("2.5-0-3-0", None),  # 10.9
        ("2-0-3-0", None),  # 12, the lower edge of rest
        ("1.5-0-1.5-0", None),  # 20, the upper edge
        ("1-0-1.5-0", "brisk-breathing"),  # 24
        ("4-4-4-4", "slow-breathing"),  # 3.75 is slower still, and needs the same caution
    ],
)
def test_tempo_falls_into_its_published_class(tempo, trait):
    traits = find_traits(drill(tempo, Dose(1, 6)))
    assert traits & {"slow-breathing", "brisk-breathing"} == ({trait} if trait else set())


def test_natural_breathing_lies_in_the_resting_band():
    # Bands of the Royal College of Physicians, NEWS2, 2017.
    assert 12 <= 60_000 / NATURAL_CYCLE_MS <= 20


@pytest.mark.parametrize(
    ("dose", "seconds"),
    [
        # Worked by hand: 3 x 10 x 10 s and two rests between; none after the last set.
        (Dose(3, 10, 60), 420),
        (Dose(1, 10, 60), 100),
        (Dose(3, 10, 0), 300),
        (Dose(3, 10, 60, Sides.EACH), 6 * 100 + 5 * 60),
        (Dose(3, 10, 60, Sides.ALTERNATE), 420),
    ],
)
def test_rests_stand_between_sets_and_sides(dose, seconds):
    assert time_drill(drill("4-1-4-1", dose), 0).drill_seconds == seconds


def test_lesson_takes_the_drill_and_the_set_up():
    time = time_drill(drill("4-1-4-1", Dose(3, 10, 60)), 30)
    assert (time.cycle_seconds, time.set_seconds) == (10, 100)
    assert (time.drill_seconds, time.lesson_seconds) == (420, 450)
    assert not time.is_estimate


def test_own_pace_gives_an_estimate():
    time = time_drill(drill(None, Dose(2, 6, 30)), 0)
    assert time.drill_seconds == 2 * 6 * 4 + 30
    assert time.is_estimate


def test_minutes_are_taken_as_they_are():
    time = time_drill(drill(None, TimedDose(5)), 30)
    assert (time.drill_seconds, time.lesson_seconds) == (300, 300)


@pytest.mark.parametrize(
    ("tempo", "whole", "left"),
    [("4-0-4-0", 37, 4), ("4-1-4-1", 30, 0), ("5.5-0-5.5-0", 27, 3), ("4-4-4-4", 18, 12)],
)
def test_breaths_in_five_minutes(tempo, whole, left):
    # Worked by hand for the 5 minutes of Balban et al., Cell Reports Medicine 4:100895, 2023.
    cycle = Tempo.parse(tempo).cycle_seconds
    assert divmod(300, cycle) == (whole, left)
    assert time_drill(drill(tempo, Dose(1, whole)), 0).drill_seconds == 300 - left
