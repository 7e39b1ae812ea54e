"""The site's typeface as styles, for pages that are whole in themselves."""

import base64

from builder.resources import find_templates

_WEIGHTS = {400: "Regular", 600: "Semibold", 700: "Bold"}


def write_faces() -> str:
    """Return a rule for each weight of the typeface, with its letters in it."""
    return "".join(_write_face(*each) for each in _WEIGHTS.items())


def _write_face(weight: int, style: str) -> str:
    file = find_templates() / "fonts" / f"TempoleafSans-{style}.woff2"
    letters = base64.b64encode(file.read_bytes()).decode()
    return (
        f'@font-face {{ font-family: "Tempoleaf Sans"; font-weight: {weight}; '
        f'src: url("data:font/woff2;base64,{letters}") format("woff2"); }}\n'
    )
