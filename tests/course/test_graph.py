"""The graph of a course, against the standard library's sorter and brute force."""

from graphlib import CycleError, TopologicalSorter
from itertools import pairwise, permutations

from hypothesis import given
from hypothesis import strategies as st

from builder.course.graph import (
    find_before,
    find_circles,
    find_longest_way,
    find_reachable,
    order_topologically,
    reduce_transitively,
)

NAMES = "abcdef"
graphs = st.fixed_dictionaries(
    {name: st.lists(st.sampled_from(NAMES), max_size=3, unique=True) for name in NAMES}
)
orders = st.fixed_dictionaries(
    {
        name: st.lists(st.sampled_from(NAMES[:index]), unique=True) if index else st.just([])
        for index, name in enumerate(NAMES)
    }
)


@given(graphs)
def test_a_circle_is_found_just_when_the_standard_sorter_finds_one(
    graph: dict[str, list[str]],
) -> None:
    try:
        tuple(TopologicalSorter(graph).static_order())
        has_circle = False
    except CycleError:
        has_circle = True
    assert bool(find_circles(graph)) is has_circle


@given(graphs)
def test_each_step_of_a_circle_is_an_arrow(graph: dict[str, list[str]]) -> None:
    for circle in find_circles(graph):
        for node, before in zip(circle, (*circle[1:], circle[0]), strict=True):
            assert before in graph[node]


@given(orders)
def test_what_a_node_builds_on_comes_before_it(graph: dict[str, list[str]]) -> None:
    order = order_topologically(graph, {})
    assert sorted(order) == sorted(graph)
    for node, befores in graph.items():
        assert all(order.index(before) < order.index(node) for before in befores)


@given(orders)
def test_reduction_keeps_reachability_and_drops_every_needless_arrow(
    graph: dict[str, list[str]],
) -> None:
    reduced = reduce_transitively(graph)
    for node in graph:
        assert find_before(reduced, node) == find_before(graph, node)
        for dropped in reduced[node]:
            thinner = reduced | {node: tuple(n for n in reduced[node] if n != dropped)}
            assert dropped not in find_before(thinner, node)


@given(orders)
def test_the_longest_way_is_as_long_as_brute_force_finds(graph: dict[str, list[str]]) -> None:
    def is_chain(nodes: tuple[str, ...]) -> bool:
        return all(a in graph[b] for a, b in pairwise(nodes))

    longest = max(
        size for size in range(1, 5) for way in permutations(NAMES, size) if is_chain(way)
    )
    way = find_longest_way(graph)
    assert is_chain(way)
    assert len(way) == longest or longest == 4 <= len(way)


def test_what_waits_for_a_circle_or_a_missing_name_is_out_of_reach() -> None:
    graph = {"a": [], "b": ["a"], "c": ["d"], "d": ["c"], "e": ["d"], "f": ["nowhere"]}
    assert find_reachable(graph) == {"a", "b"}


def test_a_circle_starts_at_its_first_name() -> None:
    assert find_circles({"c": ["b"], "b": ["a"], "a": ["c"]}) == (("a", "c", "b"),)


def test_ties_are_broken_by_rank_and_then_by_name() -> None:
    graph: dict[str, list[str]] = {"b": [], "a": [], "c": []}
    assert order_topologically(graph, {"c": (0,), "a": (1,), "b": (1,)}) == ("c", "a", "b")


@given(graphs, st.fixed_dictionaries({name: st.tuples(st.integers(0, 2)) for name in NAMES}))
def test_the_first_that_can_be_done_always_comes_next(
    graph: dict[str, list[str]], ranks: dict[str, tuple[int, ...]]
) -> None:
    left = dict(graph)
    for node in order_topologically(graph, ranks):
        ready = [name for name, befores in left.items() if not set(befores) & left.keys()]
        assert node == min(ready or left, key=lambda name: (ranks[name], name))
        del left[node]
    assert not left
