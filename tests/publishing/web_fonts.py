"""Cuts the site's typeface down to the signs of western languages, under a name of its own.

Run it once after the typeface changes: ``.venv/bin/python -m tests.publishing.web_fonts``.
"""

from pathlib import Path

from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

FONTS = Path(__file__).parents[2] / "site_templates" / "fonts"
FAMILY = "Tempoleaf Sans"
"""The licence reserves the name of the whole typeface for the whole typeface."""
STYLES = {"Regular": "Regular", "Semibold": "Semibold", "Bold": "Bold", "It": "Italic"}
RANGES = (
    *((0x20, 0x7E), (0xA0, 0x17F), (0x2C6, 0x2C6), (0x2DA, 0x2DA), (0x2DC, 0x2DC)),
    *((0x2009, 0x200A), (0x2010, 0x2015), (0x2018, 0x201E), (0x2020, 0x2022), (0x2026, 0x2026)),
    *((0x2030, 0x2030), (0x2032, 0x2033), (0x2039, 0x203A), (0x2044, 0x2044), (0x20AC, 0x20AC)),
    *((0x2122, 0x2122), (0x2190, 0x2193), (0x2212, 0x2212), (0x2215, 0x2215), (0x2248, 0x2248)),
    *((0x2260, 0x2260), (0x2264, 0x2265), (0x25A0, 0x25A1), (0x25B2, 0x25B2), (0x25B6, 0x25B6)),
    *((0x25CB, 0x25CB), (0x25CF, 0x25CF), (0x2610, 0x2611), (0x2713, 0x2713), (0x2717, 0x2717)),
)
_FEATURES = ("kern", "mark", "mkmk", "ccmp", "locl", "tnum", "lnum", "liga")
_NAMES = {1: FAMILY, 16: FAMILY, 3: "{family} {style}", 4: "{family} {style}"}


def cut(style: str) -> TTFont:
    """Return one style with fewer signs and another name; who made it and its licence stay."""
    font = TTFont(FONTS / f"SourceSans3-{style}.woff2", recalcTimestamp=False)
    options = Options(hinting=False, layout_features=list(_FEATURES), name_IDs=["*"])
    options.flavor = "woff2"
    subsetter = Subsetter(options)
    signs = {sign for first, last in RANGES for sign in range(first, last + 1)}
    subsetter.populate(unicodes=signs)
    subsetter.subset(font)
    names = font["name"]
    for record in list(names.names):
        if record.nameID in {0, 13, 14}:
            continue
        if record.nameID in _NAMES:
            text = _NAMES[record.nameID].format(family=FAMILY, style=STYLES[style])
            names.setName(text, record.nameID, record.platformID, record.platEncID, record.langID)
        elif record.nameID == 6:  # its name for printers
            text = f"TempoleafSans-{STYLES[style]}"
            names.setName(text, 6, record.platformID, record.platEncID, record.langID)
        elif record.nameID not in {2, 5, 17}:
            names.removeNames(record.nameID, record.platformID, record.platEncID, record.langID)
    font.flavor = "woff2"
    return font


def main() -> None:
    """Write all styles beside the whole ones."""
    for style in STYLES:
        cut(style).save(FONTS / f"TempoleafSans-{style}.woff2")


if __name__ == "__main__":
    main()
