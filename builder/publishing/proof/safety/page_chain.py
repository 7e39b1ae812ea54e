"""What the markup of a finished page does to words, whatever its style sheets say.

Only elements and attributes that are known to leave words to be seen are let pass; all is ours.
Tables aren't among them: whatever stands beside words in one pushes them away.
"""

import re

from builder.publishing.proof.safety.styles.elements import PageElement

DEEPEST = 40
"""Elements that stand in more others than this are not followed."""
_SHOWN = frozenset(
    [
        "html",
        "body",
        "div",
        "main",
        "article",
        "section",
        "aside",
        "header",
        "footer",
        "nav",
        "hgroup",
        "p",
        "span",
        "a",
        "strong",
        "b",
        "em",
        "i",
        "u",
        "q",
        "cite",
        "dfn",
        "abbr",
        "time",
        "address",
        "small",
        "sub",
        "sup",
        "code",
        "label",
        "bdi",
        "h1",
        "h2",
        "h3",
        "h4",
        "h5",
        "h6",
        "ul",
        "ol",
        "li",
        "dl",
        "dt",
        "dd",
        "blockquote",
        "figure",
        "figcaption",
        "details",
        "summary",
    ]
)
_ATTRIBUTE = re.compile(
    r"id|class|href|title|lang|xml:lang|dir|role|rel|hreflang|open|start|value|type|reversed|cite|"
    r"datetime|style|for|tabindex|target|epub:type|xmlns(?::\w+)?|"
    r"prefix|vocab|typeof|property|itemscope|itemtype|itemprop|aria-(?!hidden)[\w-]+|"
    r"data-(?!tl-)[\w-]+|data-tl-lesson|data-tl-boxes|name"
)
"""Attributes that hide nothing. Of ours (``data-tl-``), by which scripts find what they hide, only
those of a whole lesson."""


def is_shown_by_markup(element: PageElement) -> bool:
    """Tell whether an element by itself lets its words be seen, folded sections aside."""
    if element.local_name not in _SHOWN:
        return False
    return all(_is_plain(name, value) for name, value in element.attrib.items())


def is_folded_away(element: PageElement) -> bool:
    """Tell whether an element stands in a section that is shut, other than as its summary."""
    chain = (*element.ancestors, element)
    for above, inner in zip(chain, (*chain[1:], None), strict=True):
        if above.local_name == "details" and not _stays_open(above):
            summaries = (each for each in above.etree_children if each.local_name == "summary")
            if inner is None or inner is not next(summaries, None):
                return True
    return False


def _stays_open(section: PageElement) -> bool:
    """Tell whether a section is open; of those with one name browsers shut all but one."""
    return "open" in section.attrib and "name" not in section.attrib


def _is_plain(name: str, value: str) -> bool:
    if name == "dir":
        return value.lower() in {"ltr", "rtl", "auto"}
    if name == "aria-hidden":
        return value.lower() == "false"
    return _ATTRIBUTE.fullmatch(name) is not None
