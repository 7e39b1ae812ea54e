"""Live markup is told on its own line, however much of it there is."""

from builder.reading.live_markup import find_live_markup


def test_each_is_found_on_its_line() -> None:
    calm = ["Breathe in.", ""] * 40
    lines = [*calm, "<b>a</b>", "", *calm, "<i>b</i> <b>c</b>", "", *calm, "[d](javascript:x)"]
    found = find_live_markup("\n".join(lines))
    told = [(live.line, live.fact.partition(" ")[0]) for live in found]
    assert told == [(81, '"<b>"'), (163, '"<i>"'), (163, '"<b>"'), (245, '"javascript:x"')]


def test_a_line_full_of_tags_is_told_many_times_on_that_line() -> None:
    found = find_live_markup("A line.\n\n" + "<b>" * 300 + "a" + "</b>" * 300)
    assert {live.line for live in found} == {3}
