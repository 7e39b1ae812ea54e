"""The order of a course as a graph: node to the nodes it builds on."""

from collections.abc import Collection, Iterable, Mapping
from heapq import heappop, heappush

Graph = Mapping[str, Collection[str]]


def find_circles(graph: Graph) -> tuple[tuple[str, ...], ...]:
    """Return each knot of nodes that build on each other as one circle.

    A circle starts at its alphabetically first node and ends before that node comes again.
    """
    circles = []
    for knot in _knots(graph):
        inside = set(knot)
        start = min(knot)
        if len(knot) > 1 or start in graph.get(start, ()):
            circles.append(_shortest_circle(start, graph, inside))
    return tuple(sorted(circles))


def order_topologically(graph: Graph, ranks: Mapping[str, tuple[int, ...]]) -> tuple[str, ...]:
    """Order nodes so that each comes after what it builds on, ties by rank, then by name.

    Nodes of a circle, and what builds on them, come last in rank order.
    """
    waiting = {node: len(set(befores) & graph.keys()) for node, befores in graph.items()}
    followers: dict[str, list[str]] = {node: [] for node in graph}
    for node, befores in graph.items():
        for before in set(befores) & graph.keys():
            followers[before].append(node)
    ranked = sorted(((ranks.get(node, ()), node) for node in graph), reverse=True)
    ready = [place for place in reversed(ranked) if not waiting[place[1]]]
    done: dict[str, None] = {}
    while len(done) < len(graph):
        _, chosen = heappop(ready) if ready else ranked.pop()
        if chosen not in done:
            done[chosen] = None
            for follower in followers[chosen]:
                waiting[follower] -= 1
                if not waiting[follower]:
                    heappush(ready, (ranks.get(follower, ()), follower))
    return tuple(done)


def find_reachable(graph: Graph) -> frozenset[str]:
    """Return the nodes for which all that they build on can be done, from the first ones on."""
    reached: set[str] = set()
    fresh = True
    while fresh:
        fresh = False
        for node, befores in graph.items():
            if node not in reached and all(before in reached for before in befores):
                reached.add(node)
                fresh = True
    return frozenset(reached)


def find_before(graph: Graph, node: str) -> frozenset[str]:
    """Return everything that a node builds on, directly or not."""
    before: set[str] = set()
    waiting = list(graph.get(node, ()))
    while waiting:
        current = waiting.pop()
        if current not in before:
            before.add(current)
            waiting.extend(graph.get(current, ()))
    return frozenset(before)


def reduce_transitively(graph: Graph) -> dict[str, tuple[str, ...]]:
    """Leave out each arrow that a longer way already tells. The graph must have no circle."""
    reduced = {}
    for node, befores in graph.items():
        implied = set[str]().union(*(find_before(graph, before) for before in befores))
        reduced[node] = tuple(before for before in befores if before not in implied)
    return reduced


def find_longest_way(graph: Graph) -> tuple[str, ...]:
    """Return the longest chain of nodes, first to last. The graph must have no circle."""
    ways: dict[str, tuple[str, ...]] = {}
    for node in order_topologically(graph, {}):
        before = [ways[name] for name in graph[node] if name in ways]
        ways[node] = (*_longest(before), node)
    return _longest(ways.values())


def _longest(ways: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    return min(ways, key=lambda way: (-len(way), way), default=())


def _shortest_circle(start: str, graph: Graph, inside: set[str]) -> tuple[str, ...]:
    waiting: list[tuple[str, ...]] = [(start,)]
    seen: set[str] = set()
    for way in waiting:
        for following in sorted(set(graph[way[-1]]) & inside):
            if following == start:
                return way
            if following not in seen:
                seen.add(following)
                waiting.append((*way, following))
    return (start,)


def _knots(graph: Graph) -> list[frozenset[str]]:
    """Group nodes that can reach each other (no recursion: courses may be deep)."""
    before = {node: find_before(graph, node) for node in graph}
    knots = {
        frozenset({node, *(other for other in before[node] if node in before.get(other, ()))})
        for node in graph
    }
    return sorted(knots, key=sorted)
