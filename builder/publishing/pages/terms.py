"""Trade terms of a page, each tied to the glossary where it is first used."""

import re
from collections.abc import Iterator, Mapping
from html import escape, unescape
from re import Match

from markdown.extensions.toc import slugify

from builder.course.language_tag import root_of
from builder.language import Language
from builder.publishing.pages.links import GLOSSARY, Site

_TOKEN = re.compile(r"<[^>]*>|[^<]+")
_TAG = re.compile(r"<(/?)([a-zA-Z][\w-]*)")
_CLASSES = re.compile(r'class="([^"]*)"')
_VOID = frozenset({"br", "hr", "img", "input", "link", "meta", "wbr"})
_EXPLAINED = frozenset(
    {
        *("tl-lead", "tl-tempo__words", "tl-facts", "tl-notice__text", "tl-set-up", "tl-steps"),
        *("tl-watch", "tl-hard"),
    }
)
"""Classes of running text; labels and headings stay as they are."""
_EVERYDAY = {
    "en": frozenset(
        (
            *("belly", "breath", "card", "caution", "chest", "class", "client", "coach", "count"),
            *("cue", "demand", "dose", "effort", "hold", "kneeling", "lesson", "level", "load"),
            *("mat", "measure", "neutral", "notice", "pack", "pause", "pillow", "prop", "range"),
            *("rest", "set", "side", "sitting", "standing", "strain", "strand", "timer"),
        )
    ),
    "es": frozenset(
        (
            *("almohada", "aviso", "carga", "clase", "cliente", "cuenta", "de lado", "de pie"),
            *("de rodillas", "descanso", "dosis", "esfuerzo", "esterilla", "exhalar", "exigencia"),
            *("ficha", "fíjate en", "forzar", "giro", "hilo", "inhalar", "instructor", "lado"),
            *("lección", "material", "medida", "nalgas", "nivel", "pasa adelante cuando", "pausa"),
            *("pecho", "precaución", "recorrido", "respiración", "sentarse", "serie", "tronco"),
            *("vientre",),
        )
    ),
}
"""Terms that running text uses in their everyday sense too: a link would tell the wrong one.

By language; where there is no list, only terms of several words are linked.
"""
_LEFT_ALONE = frozenset({"a", "label", "script", "strong", "svg"})
_LEFT_ALONE_CLASSES = frozenset({"tl-facts__name"})
_SENTENCE_END = re.compile(r"(?<=[.;:?!])\s")


def explain_terms(text: str, site: Site, page: str) -> str:
    """Link each term at its first use in the running text of a page to its meaning."""
    glossary = site.course.glossary
    if not glossary:
        return text
    linker = _TermLinker(_choose(glossary, site.language), site.link(page, GLOSSARY))
    return "".join(linker.run(text))


def term_anchor(term: str) -> str:
    """Return the anchor that the glossary page has for a term."""
    return slugify(term, "-")


def _choose(glossary: Mapping[str, str], language: Language) -> dict[str, str]:
    """Return the terms that running text may link, with what each means."""
    everyday = _EVERYDAY.get(root_of(language.tag))
    return {
        term: meaning
        for term, meaning in glossary.items()
        if (" " in term if everyday is None else term.casefold() not in everyday)
    }


class _TermLinker:
    """Walks through a page and remembers which terms have been explained."""

    def __init__(self, glossary: Mapping[str, str], address: str) -> None:
        self._address = address
        self._waiting = {term.casefold(): (term, meaning) for term, meaning in glossary.items()}
        self._open: list[bool] = []

    def run(self, text: str) -> Iterator[str]:
        """Yield the page piece by piece."""
        pattern = self._pattern()
        for token in _TOKEN.findall(text):
            if token.startswith("<"):
                self._follow(token)
                yield token
            elif self._open and self._open[-1]:
                yield pattern.sub(self._link, token)
            else:
                yield token

    def _pattern(self) -> re.Pattern[str]:
        terms = sorted(self._waiting, key=lambda term: (-len(term), term))
        words = "|".join(re.escape(escape(term)) for term in terms)
        return re.compile(rf"(?<![\w-])(?:{words})(?![\w-])", re.IGNORECASE)

    def _follow(self, token: str) -> None:
        """Keep track of whether running text is open."""
        tag = _TAG.match(token)
        if tag is None or tag[2] in _VOID or token.endswith("/>"):
            return
        if tag[1]:
            if self._open:
                self._open.pop()
            return
        found = _CLASSES.search(token)
        classes = frozenset(found[1].split()) if found else frozenset()
        inside = bool(self._open and self._open[-1]) or bool(classes & _EXPLAINED)
        self._open.append(
            inside and tag[2] not in _LEFT_ALONE and not classes & _LEFT_ALONE_CLASSES
        )

    def _link(self, match: Match[str]) -> str:
        term, meaning = self._waiting.pop(unescape(match[0]).casefold(), ("", ""))
        if not term:
            return match[0]
        title = escape(_SENTENCE_END.split(meaning, maxsplit=1)[0])
        address = f"{self._address}#{term_anchor(term)}"
        return f'<a class="tl-term" href="{address}" title="{title}">{match[0]}</a>'
