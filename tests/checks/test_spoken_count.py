import pytest

from builder.checks.spoken_count import Phase, find_spoken_counts

IN, HOLD, OUT = Phase.INHALE, Phase.HOLD, Phase.EXHALE


def counts(text, default=None):
    return [(spoken.phase, spoken.low) for spoken in find_spoken_counts(text, default)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Breathe in for 4.", [(IN, 4)]),
        ("Four seconds in and six seconds out.", [(IN, 4), (OUT, 6)]),
        ("Breathe in for 4, hold for three counts, out for 6", [(IN, 4), (HOLD, 3), (OUT, 6)]),
        ("For four counts breathe in, for six counts breathe out.", [(IN, 4), (OUT, 6)]),
        ("In, two, three, four, pause. Out, two, three.", [(IN, 4), (OUT, 3)]),
        ("Breathe in through your nose for a slow count of four and a half.", [(IN, 4.5)]),
        ("Breathe in 4, hold 1, breathe out 4, hold 1.", [(IN, 4), (HOLD, 1), (OUT, 4), (HOLD, 1)]),
        ("Breathe in and count to four.", [(IN, 4)]),
        ("Count to four as you breathe in.", [(IN, 4)]),
        ("A four-second in-breath, then a 6 s exhale.", [(IN, 4), (OUT, 6)]),
        ("Breathe out, slowly, over six counts.", [(OUT, 6)]),
        ("Hold for four along the top.", [(HOLD, 4)]),
        ("Hold your breath for four.", [(HOLD, 4)]),
        ("Breathe out for six, as if you cooled soup.", [(OUT, 6)]),
        ("Breathe in for 5.5 seconds.", [(IN, 5.5)]),
        ("Hum out for six.", [(OUT, 6)]),
        ("Inhale for twenty seconds.", [(IN, 20)]),
        ("Breathe in for 4 counts breathe out for 6 counts.", [(IN, 4), (OUT, 6)]),
        ("Breathe in for 4 counts breathe out for 6.", [(IN, 4), (OUT, 6)]),
        ("If four is long, breathe in for three. Breathe out for six.", [(OUT, 6)]),
        ("Hold for half a second.", [(HOLD, 0.5)]),
        ("In, two, three, hold, two, three, out, two, three.", [(IN, 3), (HOLD, 3), (OUT, 3)]),
        ("In, five, six, out, two, three.", [(OUT, 3)]),
    ],
)
def test_plain_counts_are_found(text, expected):
    assert counts(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "Do two sets of six breaths at 4-1-4-1.",
        "Breathe in for four breaths.",
        "Breathe out for the last four counts of the set.",
        "Hold the ball for four seconds.",
        "Hold one knee with both hands. Breathe in two sets.",
        "Rest for 30 seconds with free breaths.",
        "Breathe out. Rest for 60 seconds.",
        "Breathe in, then lie still for 20 seconds.",
        "If four is long, breathe in for three.",
        "Make the out-breath two counts longer.",
        "Lift your leg in four counts.",
        "Keep the brace at three of ten as you breathe in.",
        "Breathe in for four minutes.",
        "Add one second to the out-breath.",
        "Start with an in-breath of three counts.",
        "Place one hand in, one hand out.",
        "Breathe in, hold, breathe out and hold, four seconds each.",
        "Take ten steps on each breath out for one minute.",
        "Hum out for one long breath.",
        "Stretch out for 30 seconds.",
        "Go back to [[breathe-out-for-6]].",
        "In, two, four, six.",
        "In, three, four.",
        "Breathe in as you rest for 20 seconds.",
        "Rest for 20 seconds as you breathe out.",
    ],
)
def test_other_numbers_are_left_alone(text):
    assert counts(text) == []


def test_a_hold_knows_the_phase_before_it():
    spoken = list(
        find_spoken_counts("Breathe in for 3, hold for 2. Breathe out for 3, hold for 1.")
    )
    assert [(one.low, one.after) for one in spoken if one.phase is HOLD] == [(2, IN), (1, OUT)]
    assert [one.after for one in spoken if one.phase is not HOLD] == [None, None]


def test_a_second_hold_still_follows_the_breath():
    spoken = find_spoken_counts("Breathe in for 3, hold for 2, and hold for 1.")
    assert [(one.low, one.after) for one in spoken] == [(3, None), (2, IN), (1, IN)]


def test_counts_said_number_by_number_know_the_phase_before_them():
    said = "In, two, three, hold, two, three, hold, two, three, out, two, three, hold, two, three."
    spoken = list(find_spoken_counts(said))
    assert [(one.phase, one.after) for one in spoken] == [
        (IN, None),
        (HOLD, IN),
        (HOLD, IN),
        (OUT, None),
        (HOLD, OUT),
    ]
    assert {(one.low, one.high) for one in spoken} == {(3, 3)}


def test_a_range_is_one_count():
    (spoken,) = find_spoken_counts("Breathe in for three to four counts.")
    assert (spoken.low, spoken.high) == (3, 4)


def test_a_cue_has_its_phase_from_its_key():
    assert counts("Ribs widen for four", IN) == [(IN, 4)]
    assert counts("Ribs widen for four") == []


def test_the_quote_is_in_the_author_s_words():
    (spoken,) = find_spoken_counts("Small breaths; In, two, three, Four.")
    assert spoken.quote == "In, two, three, Four"
