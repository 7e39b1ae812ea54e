"""Syllables of English words, by rule, with a table for words that no rule gets right."""

import re
from functools import lru_cache

_EXCEPTIONS = {
    word: count
    for count, words in {
        1: "square squares eye eyes eyed pier tier priest aisle bruise corpse",
        2: """
            every people peoples something someone sometimes somewhere someday sideways evening
            evenings business patient patients patience ancient conscience soldier cashier
            frontier baseline lifeline hundred hundreds sacred naked wicked rugged ragged
            crooked marriage carriage onion onions fluid fluids ruin ruins cruel fuel fuels duel
            poem poems poet create chaos lion lions likewise argue argues safeguard namesake
            timeline household guidelines guideline elsewhere whereas hereby science iron irons
            moisture cement aged diet diets quiet neon trapeze react reacts comrade homework
            housework forehead foreheads lifelong lifetime sidestep footsteps minus prayer maybe
            safety eyelid eyelids framework lifeguard colleague wavelike whalebone wholesale
            spineless beloved
        """,
        3: """
            anyone everyone everything everywhere everyday somebody nobody area areas idea ideas
            created creates creating creation reaction reactions reacted aorta alliance
            reliance element elements recipe recipes simile hundredth theatre theatres physio
            deleted sciences scientist anywhere anything however therefore likelihood
            baselines efficient sufficient moreover whoever opinion opinions aortic cinema
        """,
        4: """
            everybody anybody reality scientific coordinate cooperate apostrophe
            catastrophe posterior diabetes
        """,
        5: "physiology coordinated coordination cooperation",
        6: "physiotherapist physiotherapists",
    }.items()
    for word in words.split()
}

_NEVER_SPLIT_CONTRACTIONS = {"do": 1, "ca": 1, "wo": 1, "are": 1, "were": 1}

_SILENT = tuple(
    re.compile(pattern)
    for pattern in (
        r"(?<=[^aeiouy])(?<![^aeiouy]l)(?<![^aeiouy]r)e$",  # note, but not table or centre
        r"(?<=[gq]u)es?$",  # tongue, technique
        r"(?<=[^aeioutd])(?<![^aeiou]y)(?<![^aeiouyl]l)ed$",  # relaxed, but not rested
        r"(?<=[^aeiouysxzcg])(?<!ch)(?<!sh)(?<![^aeiouy]l)(?<![^aeiouy]r)es$",  # sides, not places
        r"(?<=[^aeiouy])(?<![^aeiouy]l)e(?=(?:ly|ful|fully|less|ness|ments?)$)",  # safely, movement
    )
)
_SPLIT = tuple(
    re.compile(pattern)
    for pattern in (
        r"(?:[aeiou]|[^aeiou]y)ings?$",  # going, lying
        r"(?<![ctsg])(?<!l(?=ia[nr]))ia",  # diaphragm, but not special or familiar
        r"[aeiou]sia(?=c)",
        r"(?<![ctsgxl])(?<!av)io(?!ur)",  # period, but not action or million
        r"(?<!g)eo",  # video, but not surgeon
        r"ie(?:t|ties)",  # quiet, society
        r"(?<![tc])ien(?:ts?|ce|cy|ces)$",  # client, experience
        r"[^aeiou]i(?:er|est)$",  # easier, earliest
        r"(?<![gq])ua",  # usual, but not guard or equal
        r"(?<!g)uen",  # influence
        r"uou",  # continuous
        r"iu",  # medium
        r"(?:s|th)ms?$",  # rhythm, spasm
    )
)
_NUMBER_SYLLABLES = (2, 1, 1, 1, 1, 1, 1, 2, 1, 1, 1, 3, 1, 2, 2, 2, 2, 3, 2, 2)
"""Of zero to nineteen, as they are spoken."""
_PARTS = re.compile(r"[0-9]+|[a-z']+")


@lru_cache(maxsize=8192)
def count_syllables(word: str) -> int:
    """Count the syllables of a word, a number in digits or several parts with hyphens."""
    parts: list[str] = _PARTS.findall(word.lower().replace("’", "'"))
    return max(1, sum(_count_part(part.strip("'")) for part in parts))


def _count_part(part: str) -> int:
    if part.isdigit():
        return _count_number(int(part)) if len(part) <= 3 else len(part)
    stem, apostrophe, ending = part.partition("'")
    if not apostrophe:
        return _count_plain(part)
    if ending == "t" and stem.endswith("n"):
        verb = stem[:-1]
        return _NEVER_SPLIT_CONTRACTIONS.get(verb, _count_plain(verb) + 1)
    return _count_plain(stem) + _count_ending(stem, ending)


def _count_ending(stem: str, ending: str) -> int:
    """Count what an ending such as 's or 'll adds."""
    if ending == "s":
        return int(stem.endswith(("s", "x", "z", "ch", "sh", "ce", "ge", "se")))
    return int(ending in ("ll", "ve") and stem[-1:] not in "aeiouy")


def _count_plain(word: str) -> int:
    if word in _EXCEPTIONS:
        return _EXCEPTIONS[word]
    sounded = re.sub(r"qu|y(?=[aeiou])", "q", word)
    silent = sum(bool(pattern.search(word)) for pattern in _SILENT)
    split = sum(bool(pattern.search(word)) for pattern in _SPLIT)
    groups = len(re.findall(r"[aeiouy]+", sounded))
    return max(1, groups - silent + split)


def _count_number(number: int) -> int:
    """Count the syllables of a number below a thousand."""
    hundreds, rest = divmod(number, 100)
    before = _NUMBER_SYLLABLES[hundreds] + 2 if hundreds else 0
    if rest == 0 and hundreds:
        return before
    joint = 1 if hundreds else 0
    if rest < len(_NUMBER_SYLLABLES):
        return before + joint + _NUMBER_SYLLABLES[rest]
    tens, ones = divmod(rest, 10)
    spoken_tens = 3 if tens == 7 else 2
    return before + joint + spoken_tens + (_NUMBER_SYLLABLES[ones] if ones else 0)
