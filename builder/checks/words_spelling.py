"""Words: British and American spelling, from a table of words that lessons use."""

import re
from collections.abc import Iterator, Mapping

from builder import rules
from builder.checks.texts import lesson_texts, write_out
from builder.course.course import Course
from builder.findings import Finding

_OUR_WORDS = "behavi col endeav fav flav harb hon hum lab neighb od rum sav tum vap vig"
_ISE_STEMS = """
    apolog central emphas energ equal familiar general harmon immobil individual initial
    local maxim memor minim mobil modern neutral normal optim organ personal prior real recogn
    social special stabil standard summar synchron util vertical visual
"""
_PAIRS = """
    centre/center centred/centered centres/centers fibre/fiber fibres/fibers litre/liter
    litres/liters theatre/theater grey/gray greys/grays programme/program programmes/programs
    analyse/analyze analysed/analyzed analysing/analyzing paralyse/paralyze catalogue/catalog
    travelling/traveling travelled/traveled traveller/traveler modelling/modeling
    modelled/modeled labelled/labeled labelling/labeling levelled/leveled levelling/leveling
    cancelled/canceled cancelling/canceling signalled/signaled counselling/counseling
    channelled/channeled tunnelled/tunneled fuelled/fueled jewellery/jewelry
    manoeuvre/maneuver manoeuvres/maneuvers oesophagus/esophagus oesophageal/esophageal
    oestrogen/estrogen oedema/edema anaemia/anemia anaesthetic/anesthetic diarrhoea/diarrhea
    dyspnoea/dyspnea apnoea/apnea haemorrhage/hemorrhage paediatric/pediatric
    orthopaedic/orthopedic gynaecologist/gynecologist foetus/fetus defence/defense
    offence/offense pretence/pretense licence/license fulfil/fulfill fulfils/fulfills
    enrol/enroll enrols/enrolls skilful/skillful wilful/willful instalment/installment
    mould/mold moulds/molds moulded/molded plough/plow sceptical/skeptical sulphur/sulfur
    aluminium/aluminum pyjamas/pajamas tyre/tire moustache/mustache cosy/cozy mum/mom
    mums/moms ageing/aging judgement/judgment practising/practicing practised/practiced
    practise/practice practises/practices metre/meter metres/meters behavioural/behavioral
"""
_BOTH_SPELLINGS = frozenset(
    (
        *("aging", "fetus", "judgment", "license", "meter", "meters"),
        *("mum", "mums", "practice", "practices", "tire"),
    )
)
"""Spellings that mean something else, or are used as well, on the other side."""
_BRITISH = ("en-gb", "en-ie", "en-au", "en-nz", "en-za")
_AMERICAN = ("en-us",)
_WORD = re.compile(r"[a-z]+")


def find_foreign_spelling(course: Course) -> Iterator[Finding]:
    """Report words of a lesson that are spelt unlike the course's language."""
    language = course.settings.language
    spellings = _spellings(language.lower())
    for lesson in course.lessons if spellings else ():
        texts = write_out(course, lesson_texts(lesson))
        for text in texts:
            words = dict.fromkeys(_WORD.findall(text.words.lower()))
            for word in words:
                if word in spellings:
                    yield rules.FOREIGN_SPELLING.at(
                        text.place,
                        f'"{word}" is not spelt as in {language}',
                        f'write "{spellings[word]}"',
                    )


def _spellings(language: str) -> Mapping[str, str]:
    """Return each foreign spelling with the language's own; nothing where we know neither."""
    if language in _BRITISH:
        return _BY_AMERICAN
    return _BY_BRITISH if language in _AMERICAN else {}


def _pairs() -> Iterator[tuple[str, str]]:
    """Yield the British spelling of each word with the American one."""
    for pair in _PAIRS.split():
        british, _, american = pair.partition("/")
        yield british, american
    for stem in _OUR_WORDS.split():
        for ending in ("", "s", "ed", "ing", "ful", "less", "able", "ite"):
            yield f"{stem}our{ending}", f"{stem}or{ending}"
    for stem in _ISE_STEMS.split():
        for ending in ("e", "es", "ed", "ing", "ation", "er"):
            yield f"{stem}is{ending}", f"{stem}iz{ending}"


_BY_AMERICAN = {us: gb for gb, us in _pairs() if us not in _BOTH_SPELLINGS}
_BY_BRITISH = {gb: us for gb, us in _pairs() if gb not in _BOTH_SPELLINGS}
