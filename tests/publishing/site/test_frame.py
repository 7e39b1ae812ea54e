"""What the theme's frame gets wrong is mended, and nothing else is touched."""

from builder.publishing.site.frame import mend_frame

SWITCH = '<input class="md-toggle" data-md-toggle="drawer" type="checkbox" id="__drawer"'
FIELD = '<input type="text" class="md-search__input" autocomplete="off">'


def test_switches_complete_nothing() -> None:
    page = f'{SWITCH} autocomplete="off">{FIELD}'
    assert mend_frame(page) == f"{SWITCH}>{FIELD}"


def test_a_page_without_the_theme_stays() -> None:
    page = '<p>autocomplete="off"</p><input autocomplete="off">'
    assert mend_frame(page) == page
