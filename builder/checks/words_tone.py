"""Words: blame and fear, which make people tense or push on."""

import re
from collections.abc import Iterator

from builder import rules
from builder.checks.texts import client_texts, write_out
from builder.checks.words_grade import is_english
from builder.course.course import Course
from builder.findings import Finding

_BLAME = (
    r"laz(?:y|iness|ily)",
    r"slopp(?:y|ily|iness)",
    r"careless(?:ly|ness)?",
    r"stupid(?:ly)?",
    r"clums(?:y|ily|iness)",
    r"pathetic",
    r"shame(?:ful)?",
    r"cheat(?:s|ed|ing)?",
    r"(?:you|your body) (?:have )?fail(?:s|ed)?",
    r"failures?",
    r"(?:don['’]t|do not|stop) be(?:ing)? (?:a |an |so |too )?\w+",
    r"your (?:own )?fault",
    r"no excuses?",
    r"you should (?:know|be able)",
    r"(?:bad|poor|terrible|ugly) (?:posture|form|habits?|breath(?:er|ing)?)",
)
_FEAR = (
    r"danger(?:s|ous|ously)?",
    r"you (?:will|could|can|might|may) (?:damage|injure|hurt|harm|ruin|wreck|break|cripple)",
    r"you['’]ll (?:damage|injure|hurt|harm|ruin|wreck|break|cripple)",
    r"(?:damage|injure|ruin|wreck|cripple) your\w*",
    r"(?:slip|blow|burst|pop) (?:a|your) disc",
    r"or else",
    r"disast(?:er|rous)\w*",
    r"catastroph\w+",
    r"crippl(?:e|ed|ing)",
    r"deadly|fatal(?:ly)?|lethal",
    r"never recover",
)
_HARSH = re.compile(rf"\b(?P<blame>{'|'.join(_BLAME)})\b|\b(?P<fear>{'|'.join(_FEAR)})\b", re.I)


def find_blame_or_fear(course: Course) -> Iterator[Finding]:
    """Report words that blame or frighten, in all that a client reads of a lesson."""
    if not is_english(course):
        return
    for lesson in course.lessons:
        for text in write_out(course, client_texts(lesson)):
            for found in _HARSH.finditer(text.words):
                verb = "blames" if found["blame"] else "frightens"
                yield rules.BLAME_OR_FEAR.at(
                    text.place, f'"{found.group()}" {verb}', "say what to do instead"
                )
