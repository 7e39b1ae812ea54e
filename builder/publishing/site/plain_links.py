"""Links in a page's HTML, for a host that takes them as seen from the page's source.

Hosts turn links of Markdown into addresses. Those in HTML some leave as they are, so that they
lead from the page's address; others turn them too, so that they must lead from its source.
"""

import re
from pathlib import PurePosixPath

_INDEX = "index.md"
_FENCE = "```"
_FENCED = re.compile(r"(^```.*?^```[ \t]*$)", re.MULTILINE | re.DOTALL)
_ADDRESS = re.compile(
    r"""(?<=[\s"'])(href|src|poster|data)=(?P<quote>["'])(?P<address>[^"'#:/\s][^"':\s]*)(?P=quote)"""
)
_UP = "../"


def link_from_source(path: str, text: str) -> str:
    """Return a page as Markdown whose HTML links lead from its source instead of its address.

    ``path`` is that of the source. A page ``a.md`` has the address ``a/``, one folder deeper;
    that of an ``index.md`` is its own folder, and nothing changes.
    """
    place = PurePosixPath(path)
    if place.name == _INDEX:
        return text

    def turn(found: re.Match[str]) -> str:
        name, quote, address = found.groups()
        inner = f"{place.stem}/{address}"
        turned = _go_up(address) if address.startswith(_UP) else inner
        return f"{name}={quote}{turned}{quote}"

    parts = _FENCED.split(text)
    return "".join(part if part.startswith(_FENCE) else _ADDRESS.sub(turn, part) for part in parts)


def _go_up(address: str) -> str:
    return address.removeprefix(_UP) or "./"
