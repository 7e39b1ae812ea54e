"""What the theme's frame gets wrong in a finished page, where no template of ours can mend it."""

import re

_SWITCH = re.compile(r'(<input class="md-toggle"[^>]*?) autocomplete="off"(?=[^>]*>)')


def mend_frame(html: str) -> str:
    """Return a page without what HTML doesn't allow in the theme's frame.

    Its two switches are checkboxes, which complete nothing (HTML, 4.10.18.7.1).
    """
    return _SWITCH.sub(r"\1", html)
