"""What must hold of a reader, whatever it is given."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from builder.errors import BuilderError
from builder.findings import Finding, spell_out
from tests.fuzz.kinds import Answer, Target

_OWN_WORDS = re.compile(r'"[^"]*"|[0-9]+')


@dataclass(frozen=True, slots=True)
class Verdict:
    """What came of one try."""

    reached: frozenset[str]
    """Findings without what they quote, and "accepted": each stands for a way through the code."""
    rules: frozenset[str]
    faults: tuple[str, ...] = ()


class FuzzError(AssertionError):
    """A reader did what none may."""


def judge(target: Target, data: bytes) -> Verdict:
    """Have a reader read bytes, twice, and look at its answers; its own exceptions pass through."""
    first, second = _ask(target, data), _ask(target, data)
    if isinstance(first, str) or isinstance(second, str):
        faults = [] if first == second else [f"first {first!r:.300}, then {second!r:.300}"]
        return Verdict(frozenset({f"stop: {_fold(str(first))}"}), frozenset(), tuple(faults))
    reached = {f"{each.rule.id} {_fold(each.fact)}" for each in first.findings}
    if first.value is not None:
        reached.add("accepted")
    return Verdict(
        frozenset(reached),
        frozenset(each.rule.id for each in first.findings),
        tuple(_find_faults(first, second)),
    )


def require_sound(target: Target, data: bytes) -> Verdict:
    """Judge bytes; raise FuzzError where something doesn't hold."""
    verdict = judge(target, data)
    if verdict.faults:
        raise FuzzError("\n".join(verdict.faults))
    return verdict


def _ask(target: Target, data: bytes) -> Answer | str:
    try:
        return target.read(data)
    except BuilderError as error:
        if not error.message or not error.cure:
            raise FuzzError("an error without a sentence or a cure") from error
        return str(error)


def _find_faults(answer: Answer, second: Answer) -> Iterator[str]:
    if answer.value != second.value or answer.findings != second.findings:
        yield "the same bytes gave another answer the second time"
    for finding in answer.findings:
        yield from _find_bad_form(finding, answer.lines)
    if answer.again is not None:
        read_back = answer.again()
        if read_back != answer.expected:
            yield f"written and read again: {read_back!r:.400} for {answer.expected!r:.400}"


def _find_bad_form(finding: Finding, lines: int | None) -> Iterator[str]:
    place = finding.place
    if place.line < 1 or place.column < 1:
        yield f"{finding!s:.200} stands before the beginning"
    if lines is not None and place.line > lines:
        yield f"{finding!s:.200} stands beyond the last of {lines} lines"
    if not finding.fact.strip() or not finding.cure.strip():
        yield f"{finding!s:.200} lacks its fact or cure"
    told = f"{place}: {finding.fact}; {finding.cure}"
    if spell_out(told) != told:
        yield f"{told!r:.300} holds signs that a terminal acts on"
    told.encode()


def _fold(text: str) -> str:
    return _OWN_WORDS.sub("…", text)[:160]
