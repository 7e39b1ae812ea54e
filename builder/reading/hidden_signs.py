"""Signs that nobody sees: they change what is printed without a trace on the screen."""

import re

_HIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f"  # control characters but tab and line ends
    "\u200b\u2060\ufeff"  # spaces of no width: they part words that a check looks for
    "\u2028\u2029"  # line ends that no editor counts
    "\u202a-\u202e\u2066-\u2069"  # turn the reading direction of what follows (UAX #9)
    "\ufffd-\uffff]"  # stands for lost letters, or for none
)
CURE = "delete it, and type the words around it again"


def find_hidden_sign(text: str) -> tuple[int, str] | None:
    """Return where the first hidden sign of a text stands, and the fact about it."""
    found = _HIDDEN.search(text)
    if found is None:
        return None
    return (
        found.start(),
        f"a sign that can't be seen or printed (U+{ord(found[0]):04X}) stands here",
    )
