"""The site's small typeface: enough signs for its languages, and lawful to hand on."""

import pytest
from fontTools.ttLib import TTFont

from tests.publishing.web_fonts import FONTS, RANGES, STYLES

LETTERS = (
    "English, “quoted” – it’s 1½ × 30 °C … £ €",
    "¿Cómo está? ¡Mañana sí! Pingüino, acción, año",
    "Größe, Füße, Übung, Atemzüge: „ruhig“",
    "Português: ação, não; français: œuvre, ça, là; polski: źdźbło; türkçe: ışık",
    "✓ ✗ ☐ → ← ↑ ↓ • ■ □ ▲ ▶ ≤ ≥ ≈ −",
)
KEPT_BY_LICENCE = (0, 13, 14)
"""Name ids of copyright, licence and its address; OpenType, table "name"."""


@pytest.fixture(params=sorted(STYLES))
def style(request: pytest.FixtureRequest) -> str:
    return str(request.param)


def test_every_sign_of_western_languages_is_in_it(style: str) -> None:
    signs = set(TTFont(FONTS / f"TempoleafSans-{style}.woff2").getBestCmap())
    assert {ord(sign) for text in LETTERS for sign in text} <= signs
    whole = set(TTFont(FONTS / f"SourceSans3-{style}.woff2").getBestCmap())
    wanted = {sign for first, last in RANGES for sign in range(first, last + 1)}
    assert signs == wanted & whole


def test_its_name_is_its_own_and_its_makers_are_named(style: str) -> None:
    names = TTFont(FONTS / f"TempoleafSans-{style}.woff2")["name"]
    whole = TTFont(FONTS / f"SourceSans3-{style}.woff2")["name"]
    for record in names.names:
        if record.nameID in KEPT_BY_LICENCE:
            assert record.toUnicode() == whole.getDebugName(record.nameID)
        else:
            assert "Source" not in record.toUnicode()
    assert "Adobe" in str(names.getDebugName(0))
    assert str(names.getDebugName(4)).startswith("Tempoleaf Sans")


def test_letters_are_as_wide_as_in_the_whole_one(style: str) -> None:
    small = TTFont(FONTS / f"TempoleafSans-{style}.woff2")
    whole = TTFont(FONTS / f"SourceSans3-{style}.woff2")
    for sign, name in small.getBestCmap().items():
        assert small["hmtx"][name][0] == whole["hmtx"][whole.getBestCmap()[sign]][0]


def test_it_is_light(style: str) -> None:
    small, whole = (
        (FONTS / f"{family}-{style}.woff2").stat().st_size
        for family in ("TempoleafSans", "SourceSans3")
    )
    assert small * 5 < whole
