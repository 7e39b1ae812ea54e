"""Claims and pressure: the course treats nobody and pushes nobody through pain."""

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from builder import rules
from builder.checks.texts import Text, course_texts
from builder.course.course import Course
from builder.findings import Finding

_ILLNESS = (
    r"(?:pains?|aches?|asthma|copd|anxiety|depression|migraines?|headaches?|insomnia|snoring"
    r"|diseases?|illness(?:es)?|symptoms?|high blood pressure|hypertension|reflux|injur(?:y|ies)"
    r"|hernias?|sciatica|arthritis|diabetes|long covid|panic attacks?)"
)
_BODY = (
    r"(?:backs?|necks?|posture|breathing|bod(?:y|ies)|spines?|hips?|shoulders?|knees?|lungs?"
    r"|pelvic floor|heart|nerves?|discs?|joints?|core|diaphragm)"
)
_MEDICINE = re.compile(
    r"\b(?:clinicians?|doctors?|physio\w*|midwi(?:fe|ves)|nurses?|surgeons?|surgical|therapists?"
    r"|hospitals?|whoever|medicines?|tablets?|pills?|drugs?|care team|those who|people who|anyone"
    r" who|person who|specialists?)\b"
)
_PRACTICE = re.compile(
    r"\b(?:breath\w*|lessons?|drills?|courses?|practice|exercises?|this|it) (?:\w+ )?$"
)
_DENIAL = re.compile(
    r"\b(?:no|not(?! (?:only|just))|never|nobody|nothing|none|neither|nor|cannot|without|avoid"
    r"|nowhere|rather than|instead of|forget|refuses?|stop before)\b|n't\b(?! (?:only|just))"
)
_NEW_SUBJECT = re.compile(
    r"[.;:!?](?:\s|$)|\bbut\b|,(?= (?:it|this|that|these|they|you|we|breath\w*|so)\b)|\n|—"
)


@dataclass(frozen=True, slots=True)
class _Wording:
    pattern: re.Pattern[str]
    is_excused_by_medicine: bool = True


def _wording(pattern: str, *, medicine: bool = True) -> _Wording:
    return _Wording(re.compile(pattern), medicine)


_CLAIMS = (
    _wording(
        r"\b(?:treats?|treating)\b(?= \w)(?! (?:yourself|yourselves|it|them|this|that|these|each"
        r"|the (?:pause|count|hold))\b)(?![^.;]* as\b)(?![^.;]* like\b)"
    ),
    _wording(
        r"\btreated (?:by|with|through) (?:this|these|breath\w*|our|the (?:course|lesson|drill))"
    ),
    _wording(r"\b(?:a|an|our|natural|effective|drug-free) treatments? (?:for|of|against)\b"),
    _wording(r"\b(?:cures|curing|cure (?:your|the|any|all|a|an|most|for)|cure \w+)\b(?! in\b)"),
    _wording(r"\b(?:to|can|will|may|could) cure\b|\b(?:natural|sure|instant|quick|a) cure\b"),
    _wording(
        rf"\bheals? (?:you|your|the|a|an|any|all|every|most|old|{_BODY}|{_ILLNESS})\b"
        r"|\b(?:breath\w*|lessons?|drills?|course|exercises?|practice|this|it)"
        r" (?:can |will )?heals?\b"
        r"|\bhealing (?:your|the (?:body|back|spine|lungs)|power|breath)\b"
    ),
    _wording(
        rf"\b(?:fix|fixes|fixing) (?:\w+ )?(?:bad |low |lower |stiff |sore |weak |poor )*"
        rf"(?:{_BODY}|{_ILLNESS})\b"
    ),
    _wording(
        r"\bdiagnos(?:e|es|ing)\b|\b(?:gives?|makes?|offers?|get) (?:you )?(?:a|your) diagnosis\b"
    ),
    _wording(r"\bguarante(?:e|es|ed|eing)\b", medicine=False),
    _wording(
        rf"\b(?:relieves?|banish(?:es)?|eliminates?|gets? rid of|takes? away|ends|reverses?"
        rf"|removes?|heals?|prevents?) (?:\w+ ){{0,2}}?{_ILLNESS}\b"
    ),
    _wording(r"\b(?:lowers?|reduces?|brings? down) (?:your |high |the )*blood pressure\b"),
    _wording(r"\b(?:clinically|medically|scientifically) (?:proven|proved|approved)\b"),
    _wording(r"\b(?:works for (?:everyone|everybody)|always works|can't fail|miracle)\b"),
)
_HURT = (
    r"(?:pains?|aches?|aching|hurt|discomfort|dizziness|dizzy (?:spell|feeling)|faintness"
    r"|tingling|burn(?:ing)?|cramps?|strain|nausea|breathlessness)"
)
_IT = r"(?:the |any |your |some |a |that |this |all |little |bit of |mild |sharp )*"
_PRESSURE = (
    _wording(
        r"\b(?:push|work|breathe|power|go|fight|move|train|carry on|keep going|get)(?:es|s|ing)?"
        rf" (?:your way )?(?:on )?(?:through|past|beyond|into) {_IT}{_HURT}\b"
    ),
    _wording(r"\bno pain,? (?:and |means )?no gain\b|\bpain is gain\b|\bfeel the burn\b"),
    _wording(
        rf"\b(?:ignor(?:e|es|ing)|disregard|forget about|override|bear|endure|fight|put up with)"
        rf" {_IT}(?:{_HURT}|stop signs?|warning signs?)\b"
    ),
    _wording(
        rf"\b{_HURT} is (?:(?!not|never|no)\w+ )?"
        r"(?:good|normal|fine|useful|weakness|part of|a good sign|progress)\b"
    ),
    _wording(
        r"\b(?:should|must|has to|needs to|ought to|may well) (?:really )?(?:hurt|ache|burn)\b"
    ),
    _wording(
        r"\b(?:keep going|carry on|go on|keep on|continue|push on|hold on)\b[^.;!?]*"
        rf"\b(?:though|although|even if|even when|when|if|despite|until|till)\b[^.;!?,]*"
        rf"\b(?:hurts?|{_HURT}|dizzy|faint)\b"
    ),
    _wording(
        rf"\b(?:do not|don't|never|no need to) stop\b[^.;!?]*\b(?:hurts?|{_HURT}|dizzy|faint)\b"
    ),
    _wording(
        r"\b(?:if|when) (?:it|something|anything) hurts,? (?:keep|carry on|go on|push|hold on)\b"
    ),
    _wording(r"\b(?:until|till) it (?:hurts|burns|aches)\b|\bgrit your teeth\b|\btough it out\b"),
)


def find_cure_claims(course: Course) -> Iterator[Finding]:
    """Report wording that claims to treat, cure, heal, fix, diagnose or guarantee."""
    for text, words in _find(course_texts(course), _CLAIMS):
        yield rules.CURE_CLAIM.at(
            text.place,
            f'"{words}" promises what only care can give, or nobody can',
            "say what people do and feel, not what it does for an illness",
        )


def find_push_through_pain(course: Course) -> Iterator[Finding]:
    """Report wording that tells somebody to go on through pain, dizziness or another stop sign."""
    for text, words in _find(course_texts(course), _PRESSURE):
        yield rules.PUSH_THROUGH_PAIN.at(
            text.place,
            f'"{words}" tells people to go on where they should stop',
            "tell them to stop, and what to do instead",
        )


def find_claims(text: str) -> tuple[str, ...]:
    """Return the wordings of a text that claim to treat, cure or guarantee."""
    return _matches(text, _CLAIMS)


def find_pressure(text: str) -> tuple[str, ...]:
    """Return the wordings of a text that tell somebody to go on through pain."""
    return _matches(text, _PRESSURE)


def _find(texts: Iterable[Text], wordings: tuple[_Wording, ...]) -> Iterator[tuple[Text, str]]:
    for text in texts:
        for words in _matches(text.words, wordings):
            yield text, words


def _matches(text: str, wordings: tuple[_Wording, ...]) -> tuple[str, ...]:
    plain = text.lower().replace("’", "'")
    found: dict[int, str] = {}
    for wording in wordings:
        for match in wording.pattern.finditer(plain):
            clause = _NEW_SUBJECT.split(plain[: match.start()])[-1]
            if not _is_excused(wording, clause):
                found.setdefault(match.start(), text[match.start() : match.end()].strip())
    return tuple(found[start] for start in sorted(found))


def _is_excused(wording: _Wording, clause: str) -> bool:
    """Tell whether the words before a match deny it, or say it of a clinician or a medicine."""
    by_medicine = _MEDICINE.search(clause) and not _PRACTICE.search(clause)
    return bool(_DENIAL.search(clause) or (wording.is_excused_by_medicine and by_medicine))
