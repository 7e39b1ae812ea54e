"""Sources under a result: what was published, and what is ours."""

from collections.abc import Iterable, Iterator

from builder.sums.citation import Citation


def write_sources(citations: Iterable[Citation]) -> Iterator[str]:
    """Yield the lines of a list of sources, the published ones first."""
    listed = list(citations)
    yield "Sources"
    yield from (f"- {citation}" for citation in listed if not citation.is_ours)
    yield "Ours, with no published source"
    yield from (f"- {citation.title}" for citation in listed if citation.is_ours)


def list_sources(citations: Iterable[Citation]) -> list[dict[str, object]]:
    """Return sources for programs."""
    return [
        {
            "key": citation.key,
            "ours": citation.is_ours,
            "authors": citation.authors,
            "year": citation.year,
            "title": citation.title,
            "where": citation.where,
        }
        for citation in citations
    ]
