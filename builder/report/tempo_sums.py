"""What a tempo asks of bodies at an effort, for people and for programs."""

import json
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from builder.course.reference_body import ReferenceBody
from builder.course.tempo import Tempo, format_seconds
from builder.course.vocabulary import Effort
from builder.report.sources import list_sources, write_sources
from builder.sums.air import (
    SHORT_SET_SECONDS,
    AirShare,
    BreathSize,
    find_air_share,
    find_longest_cycle_seconds,
)
from builder.sums.citation import Citation
from builder.sums.counts import find_shorter_tempos
from builder.sums.energy import ACTIVITIES, Edition
from builder.sums.rates import Rate, classify_rate

CAUTION = (
    "Averages of many people, not a finding about anybody. It clears nobody: local rules and "
    "licensed clinicians come first."
)
_MOST_BETTER = 3
_SHORTEST_CYCLE_SECONDS = 4.0


@dataclass(frozen=True, slots=True)
class TempoSums:
    """One tempo at one effort, worked out for some bodies."""

    tempo: Tempo
    effort: Effort
    rate: Rate
    breaths: int
    shares: tuple[AirShare, ...]
    better: tuple[Tempo, ...]
    """Counts next to this one that are easy for every body; empty where this one is, or none is."""

    @property
    def set_seconds(self) -> float:
        """Return how long a set takes."""
        return self.breaths * self.tempo.cycle_seconds

    @property
    def citations(self) -> tuple[Citation, ...]:
        """Return every source once, and what is ours."""
        own = [self.rate.citations, *(share.citations for share in self.shares)]
        is_published = _is_published(self.effort)
        named = [Edition(self.effort.edition).citation] if is_published else []
        return tuple(dict.fromkeys([*named, *(citation for row in own for citation in row)]))


def work_out_tempo(
    tempo: Tempo, effort: Effort, bodies: Sequence[ReferenceBody], breaths: int
) -> TempoSums:
    """Work a tempo out for at least one body.

    Raises `OutsideValidityError` for what the sums aren't made for.
    """
    cycle = tempo.cycle_seconds
    shares = tuple(find_air_share(cycle, effort.met, body) for body in bodies)
    better: tuple[Tempo, ...] = ()
    if any(share.size is not BreathSize.EASY for share in shares):
        longest = min(find_longest_cycle_seconds(effort.met, body) for body in bodies)
        found = find_shorter_tempos(tempo, longest, _SHORTEST_CYCLE_SECONDS)
        better = tuple(found[:_MOST_BETTER])
    return TempoSums(tempo, effort, classify_rate(60 / cycle), breaths, shares, better)


def write_tempo_sums(sums: TempoSums) -> str:
    """Write the sums for people, the caution beside the numbers and the sources last."""
    return "\n".join(_lines(sums))


def write_tempo_json(sums: TempoSums) -> str:
    """Write the sums for programs; shares are parts of one."""
    effort = sums.effort
    return json.dumps(
        {
            "tempo": str(sums.tempo),
            "cycle_seconds": sums.tempo.cycle_seconds,
            "rate_per_minute": round(sums.rate.per_minute, 4),
            "rate_band": sums.rate.band,
            "breaths": sums.breaths,
            "set_seconds": sums.set_seconds,
            "effort": {"id": effort.id, "met": effort.met, "edition": effort.edition},
            "bodies": [_share_as_json(share) for share in sums.shares],
            "better_counts": [str(tempo) for tempo in sums.better],
            "flagged": _is_flagged(sums),
            "caution": CAUTION,
            "sources": list_sources(sums.citations),
        },
        ensure_ascii=False,
        indent=2,
    )


def _lines(sums: TempoSums) -> Iterator[str]:
    tempo, effort = sums.tempo, sums.effort
    phases = ", ".join(f"{step} {format_seconds(seconds)} s" for step, seconds in tempo.steps)
    yield f"{tempo}: {phases}"
    yield ""
    yield f"rate      {sums.rate.per_minute:.3g} breaths a minute, {sums.rate.band}"
    yield f"cycle     {format_seconds(tempo.cycle_seconds)} s"
    yield f"set       {sums.breaths} breaths in {format_seconds(sums.set_seconds)} s"
    yield f"effort    {_word_effort(effort)}"
    for share in sums.shares:
        yield ""
        yield from _lines_of_body(share)
    yield ""
    yield f"better    {_word_better(sums)}"
    yield ""
    yield CAUTION
    yield ""
    yield from write_sources(sums.citations)


def _lines_of_body(share: AirShare) -> Iterator[str]:
    needed, capacity = share.needed, share.capacity
    yield f"{share.body}"
    yield (
        f"needed    {needed.tidal_ml / 1000:.2f} L a breath, "
        f"{needed.dead_space_ml / 1000:.2f} L of it for the airways"
    )
    yield (
        f"capacity  {capacity.median_ml / 1000:.2f} L to breathe in at most, by prediction; "
        f"one healthy person in twenty has under {capacity.low_ml / 1000:.2f} L"
    )
    yield f"share     {share.percent}%, {_SIZES[share.size]}"


_SIZES = {
    BreathSize.EASY: "under half",
    BreathSize.BIG: "big: half or more",
    BreathSize.TOO_BIG: "too big: by prediction all that there is, or more",
}


def _word_better(sums: TempoSums) -> str:
    if all(share.size is BreathSize.EASY for share in sums.shares):
        return "this count is not too slow here"
    counts = ", ".join(str(tempo) for tempo in sums.better) or "none at this effort"
    if _is_flagged(sums):
        return counts
    return f"{counts}; a set under {SHORT_SET_SECONDS:g} s is shown, not flagged"


def _is_flagged(sums: TempoSums) -> bool:
    is_easy = all(share.size is BreathSize.EASY for share in sums.shares)
    return not is_easy and sums.set_seconds >= SHORT_SET_SECONDS


def _is_published(effort: Effort) -> bool:
    """Tell whether an effort's value is the one that its edition gives its code."""
    if effort.edition not in set(Edition) or effort.code not in ACTIVITIES:
        return False
    row = ACTIVITIES[effort.code]
    is_of_2011 = effort.edition == Edition.OF_2011
    return effort.met == (row.met_2011 if is_of_2011 else row.met_2024)


def _word_effort(effort: Effort) -> str:
    if _is_published(effort):
        return f"{effort.id}, {effort.met:g} MET ({effort.edition}, {effort.code})"
    return f"{effort.id}, {effort.met:g} MET (not looked up in a published list)"


def _share_as_json(share: AirShare) -> dict[str, object]:
    body = share.body
    return {
        "name": body.name,
        "lung_reference": body.lung_reference,
        "age_years": body.age_years,
        "height_cm": body.height_cm,
        "weight_kg": body.weight_kg,
        "needed_ml": round(share.needed.tidal_ml),
        "dead_space_ml": round(share.needed.dead_space_ml),
        "capacity_ml": round(share.capacity.median_ml),
        "capacity_low_ml": round(share.capacity.low_ml),
        "share": round(share.share, 4),
        "size": share.size,
    }
