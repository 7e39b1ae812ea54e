"""The solver layer against published answers, and what it says where there is none."""

from itertools import combinations, pairwise

from builder.planning.solver import Ending, Programme, solve

FT06 = (
    "2 1 0 3 1 6 3 7 5 3 4 6",
    "1 8 2 5 4 10 5 10 0 10 3 4",
    "2 5 3 4 5 8 0 9 1 1 4 7",
    "1 5 0 5 2 5 3 3 4 8 5 9",
    "2 9 1 3 4 5 5 4 0 3 3 1",
    "1 3 3 3 5 9 0 10 4 4 2 1",
)
"""Six jobs on six machines, each line a job's machines and times in their order. Instance ft06,
also mt06: Fisher and Thompson, in Muth and Thompson, Industrial Scheduling, Prentice-Hall 1963;
the shortest schedule takes 55."""


def test_the_shortest_schedule_of_a_published_job_shop_takes_55() -> None:
    jobs = [list(map(int, line.split())) for line in FT06]
    steps = [list(zip(job[::2], job[1::2], strict=True)) for job in jobs]
    longest = sum(time for job in steps for _, time in job)
    programme = Programme()
    end = programme.add_whole(longest, -1)
    starts = [[programme.add_share(longest) for _ in job] for job in steps]
    for job, start in zip(steps, starts, strict=True):
        for at, (before, after) in enumerate(pairwise(start)):
            programme.require([(after, 1), (before, -1)], low=job[at][1])
        programme.require([(end, 1), (start[-1], -1)], low=job[-1][1])
    on_machine: dict[int, list[tuple[int, int]]] = {}
    for job, start in zip(steps, starts, strict=True):
        for (machine, time), variable in zip(job, start, strict=True):
            on_machine.setdefault(machine, []).append((variable, time))
    for users in on_machine.values():
        for (one, one_time), (other, other_time) in combinations(users, 2):
            is_first = programme.add_whole(1)
            programme.require([(other, 1), (one, -1), (is_first, -longest)], low=one_time - longest)
            programme.require([(one, 1), (other, -1), (is_first, longest)], low=other_time)
    answer = solve(programme)
    assert answer.ending is Ending.PROVEN
    assert round(-answer.total) == 55


def test_a_knapsack_of_a_text_book_is_filled_to_the_best() -> None:
    # the numbers of example 2.1 in Martello and Toth, Knapsack Problems, Wiley 1990 (from memory)
    programme = Programme()
    profits, weights = (70, 20, 39, 37, 7, 5, 10), (31, 10, 20, 19, 4, 3, 6)
    items = [programme.add_whole(1, profit) for profit in profits]
    programme.require(list(zip(items, weights, strict=True)), high=50)
    answer = solve(programme)
    best = max(
        sum(profit for at, profit in enumerate(profits) if chosen >> at & 1)
        for chosen in range(2**7)
        if sum(weight for at, weight in enumerate(weights) if chosen >> at & 1) <= 50
    )
    assert (answer.ending, answer.total, answer.bound) == (Ending.PROVEN, best, best)


def test_what_contradicts_itself_is_impossible() -> None:
    programme = Programme()
    variable = programme.add_whole(1, 1)
    programme.require([(variable, 1)], low=2)
    assert solve(programme).ending is Ending.IMPOSSIBLE


def test_a_variable_named_twice_in_a_row_counts_twice() -> None:
    programme = Programme()
    variable = programme.add_whole(10, 1)
    programme.require([(variable, 1), (variable, 1)], high=7)
    assert solve(programme).values == (3.0,)


def test_the_same_question_gets_the_same_answer() -> None:
    def ask() -> tuple[float, ...]:
        programme = Programme()
        many = [programme.add_whole(1, 1) for _ in range(12)]
        for one, other in combinations(many, 2):
            programme.require([(one, 1), (other, 1)], high=1)
        return solve(programme).values

    assert ask() == ask()


def write_knapsack() -> Programme:
    """Six things to choose from, of which not all fit."""
    programme = Programme()
    things = [(9, 6), (11, 7), (13, 9), (15, 10), (4, 3), (2, 2)]
    taken = [programme.add_whole(1, gain) for gain, _ in things]
    programme.require(
        [(each, size) for each, (_, size) in zip(taken, things, strict=True)], high=20
    )
    return programme


def test_a_known_answer_is_bettered_and_never_lost() -> None:
    known = (0.0, 0.0, 0.0, 1.0, 1.0, 0.0)
    answer = solve(write_knapsack(), start=known)
    best = max(
        sum(gains)
        for size in range(7)
        for chosen in combinations([(9, 6), (11, 7), (13, 9), (15, 10), (4, 3), (2, 2)], size)
        if sum(weight for _, weight in chosen) <= 20
        for gains in [[gain for gain, _ in chosen]]
    )
    assert (answer.ending, answer.total) == (Ending.PROVEN, best)
    gains = (9, 11, 13, 15, 4, 2)
    assert sum(g * v for g, v in zip(gains, answer.values, strict=True)) == best


def test_without_a_single_step_the_known_answer_stands() -> None:
    known = (0.0, 0.0, 0.0, 1.0, 1.0, 0.0)
    answer = solve(write_knapsack(), start=known, most_nodes=0)
    assert answer.total >= 19
    assert answer.bound >= answer.total
