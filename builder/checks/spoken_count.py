"""Counts of seconds that a text says aloud: "breathe in for four", "six seconds out".

Only what is plain is found. A number that might count something else is left alone.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum


class Phase(StrEnum):
    """The part of a breath that a count belongs to."""

    INHALE = "inhale"
    HOLD = "hold"
    EXHALE = "exhale"


@dataclass(frozen=True, slots=True)
class SpokenCount:
    """A count, the phase it belongs to, and the words that say so."""

    phase: Phase
    after: Phase | None
    """For a hold: the phase before it, where the text names one."""
    low: float
    high: float
    """Unlike ``low`` where the text gives a range such as "three to four"."""
    quote: str


# fmt: off
_WORDS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen", "twenty",
)
# fmt: on
_NUMBER_WORD = re.compile(rf"\b(?:{'|'.join(_WORDS)})\b", re.IGNORECASE)
_N = r"(?P<low>\d+(?:\.\d+)?)(?:\s*(?:to|or|-|–)\s*(?P<high>\d+(?:\.\d+)?))?"
_ONE_NUMBER = rf"(?:\d+|{'|'.join(_WORDS)})\b"
_SEQUENCE = re.compile(
    r"\b(?P<phase>in|out|hold|inhale|exhale|pause)\b\W{1,3}"
    rf"(?P<count>{_ONE_NUMBER}(?:\W{{1,3}}{_ONE_NUMBER})+)(?!\.\d)",
    re.IGNORECASE,
)
_SPOKEN_PHASES = {
    "in": Phase.INHALE,
    "inhale": Phase.INHALE,
    "out": Phase.EXHALE,
    "exhale": Phase.EXHALE,
}
_DASHED_TEMPO = re.compile(r"\b\d+(?:\.\d+)?(?:-(?:\d+(?:\.\d+)?|pause)){3}\b", re.IGNORECASE)
_UNIT = (
    r"(?:(?:slow|quiet|soft|gentle|easy|steady|full|even|small|whole) )?"
    r"(?:seconds?|secs?|s|counts?|beats?)"
)
_AMOUNTS = (
    re.compile(
        rf"(?<![\w.-]){_N}[\s-]*{_UNIT}\b(?! (?:longer|shorter|more|less|later|apart|each)\b)",
    ),
    re.compile(
        rf"\b(?:for|over|(?:a|the)?(?: \w+)? ?count(?:ing)?(?: up)?(?: to| of)?) {_N}(?![\w.-]*\w)"
        r"(?! (?:more|or|to|of|half|people|feet)\b)"
        r"(?! (?:[\w-]+ ){0,2}?(?:in-|out-)?(?:breath|minute|hour|day|week|set|step|foot|time)\b)"
        r"(?! (?!(?:as|across|towards|this|its)\b)\w+s\b)",
    ),
    re.compile(rf"(?:^|\b(?:in|out|hold|pause|inhale|exhale)) {_N}$"),
    re.compile(rf"(?<![\w.-]){_N} (?:in|out|hold)$"),
)
_NOT_A_PHASE = re.compile(
    r"\b(?:last|first|next|final|add|by|another|extra|within|after|every|than|up to|least|most)"
    r"(?: of)? $"
)
_FREELY = r"(?:^|\b(?:it|air|hum|sigh|blow|\w+ly) )"
_PHASES = (
    (
        Phase.INHALE,
        re.compile(
            r"\bbreath(?:e|es|ing)?(?: \w+)? in\b|\bin-breath|\binhal\w+"
            rf"|^in\b(?= \d)|{_FREELY}in\b(?= (?:for|over) )|\bin$"
        ),
    ),
    (
        Phase.EXHALE,
        re.compile(
            r"\bbreath(?:e|es|ing)?(?: \w+)? out\b|\bout-breath|\bexhal\w+"
            rf"|^out\b(?= \d)|{_FREELY}out\b(?= (?:for|over) )|\bout$"
        ),
    ),
    (
        Phase.HOLD,
        re.compile(
            r"\bhold(?:s|ing)?(?= (?:for|over|your breath|the breath|still|softly|gently|lightly"
            r"|again|there|here|\d|at the (?:top|bottom)|with (?:a )?(?:soft|full|empty))\b|$)"
            r"|\bpaus(?:e|es|ing)\b"
        ),
    ),
)
_OTHER_DOING = re.compile(r"\b(?:rest|stay|wait|lie|sit|keep|relax|count your)\b")
_FILLER = re.compile(
    r"(?:\b(?:for|about|around|a|the|to|over|of|slow|slowly|softly|gently|quietly|easily|you|each"
    r"|through|your|nose|mouth|lips|count|counting|this)\b|\s)*"
)
_HEDGE = re.compile(
    r"(?<!as )\bif\b|\b(?:unless|instead|at first|work up|build up|start with|begin with)\b"
)
_SENTENCE_END = re.compile(r"(?<=[.!?])\s+")
_CLAUSE_END = re.compile(r"[,;:()–—.!?\"“”]+(?!\d)|\b(?:and|then|but)\b(?! a half)", re.IGNORECASE)


def find_spoken_counts(text: str, default: Phase | None = None) -> Iterator[SpokenCount]:
    """Find every count of a text; a count without a phase belongs to the default, if any."""
    before: Phase | None = None
    plain = _DASHED_TEMPO.sub(" ", re.sub(r"\[\[.*?\]\]|[*_`]", " ", text))
    for sentence in _SENTENCE_END.split(plain):
        if _HEDGE.search(sentence.lower()):
            continue
        rest, spoken = _take_sequences(sentence)
        yield from spoken
        phase = default
        for clause in _CLAUSE_END.split(rest):
            own = _find_phases(_normalise(clause))
            fallback = phase if _is_filler(_normalise(clause)) or default else None
            yield from _find_in_clause(clause, fallback, before)
            for _, _, found in own:
                phase = found
                before = before if found is Phase.HOLD else found


def _find_in_clause(
    clause: str, fallback: Phase | None, before: Phase | None
) -> Iterator[SpokenCount]:
    words = _normalise(clause)
    taken: list[tuple[int, int]] = []
    for pattern in _AMOUNTS:
        for match in pattern.finditer(words):
            low, high = match["low"], match["high"] or match["low"]
            if any(match.start("low") < end and start < match.end() for start, end in taken):
                continue
            taken.append(match.span())
            phase = _bind(words, match) or fallback
            if phase and not _NOT_A_PHASE.search(words[: match.start("low")]):
                after = before if phase is Phase.HOLD else None
                yield SpokenCount(phase, after, float(low), float(high), _squeeze(clause))


def _bind(words: str, amount: re.Match[str]) -> Phase | None:
    """Find the phase that an amount belongs to: the nearest before it, else the first after."""
    found = _find_phases(words)
    before = [item for item in found if item[0] < amount.start("low")]
    if before:
        _, end, phase = before[-1]
        return None if _OTHER_DOING.search(words[end : amount.start("low")]) else phase
    return None if _OTHER_DOING.search(words) else (found[0][2] if found else None)


def _find_phases(words: str) -> list[tuple[int, int, Phase]]:
    return sorted(
        (*match.span(), phase) for phase, pattern in _PHASES for match in pattern.finditer(words)
    )


def _take_sequences(sentence: str) -> tuple[str, list[SpokenCount]]:
    """Take counts said number by number ("in, two, three, four") out of a sentence."""
    spoken: list[SpokenCount] = []
    before: Phase | None = None
    rest, end = "", 0
    for match in _SEQUENCE.finditer(sentence):
        numbers = [int(number) for number in re.findall(r"\d+", _normalise(match["count"]))]
        if numbers != list(range(numbers[0], numbers[0] + len(numbers))) or numbers[0] > 2:
            continue
        phase = _SPOKEN_PHASES.get(match["phase"].lower(), Phase.HOLD)
        after = before if phase is Phase.HOLD else None
        last = float(numbers[-1])
        spoken.append(SpokenCount(phase, after, last, last, _squeeze(match[0])))
        before = before if phase is Phase.HOLD else phase
        rest, end = f"{rest}{sentence[end : match.start()]} ", match.end()
    return rest + sentence[end:], spoken


def _normalise(clause: str) -> str:
    words = _NUMBER_WORD.sub(_digits, _squeeze(clause.lower()))
    words = re.sub(r"\b(\d+) and a half\b", r"\1.5", words)
    return re.sub(r"\bhalf a (second|count)\b", r"0.5 \1", words)


def _digits(match: re.Match[str]) -> str:
    return str(_WORDS.index(match[0].lower()) + 1)


def _is_filler(words: str) -> bool:
    left = words
    for pattern in _AMOUNTS[:2]:
        left = pattern.sub(" ", left)
    return left != words and _FILLER.fullmatch(left) is not None


def _squeeze(text: str) -> str:
    return " ".join(text.split())
