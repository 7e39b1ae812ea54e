"""What each kind of system calls its packages, and the line that installs them."""

import pytest

from builder.machine.systems import PACKAGES, Part, System, install_line, packages_for


def test_debian_has_a_package_for_every_part() -> None:
    assert set(PACKAGES[System.DEBIAN]) == set(Part)


@pytest.mark.parametrize("system", [kind for kind in System if kind is not System.OTHER])
def test_every_known_system_names_what_pdfs_need(system: System) -> None:
    assert {Part.PANGO, Part.SUBSETTER} <= set(PACKAGES[system])


def test_a_package_that_brings_two_parts_is_named_once() -> None:
    names = packages_for(System.FEDORA, (Part.PANGO, Part.PANGO, Part.SUBSETTER))
    assert names == ("pango", "harfbuzz")


def test_an_unknown_system_is_told_what_to_install_in_words() -> None:
    assert install_line(System.OTHER, (Part.PANGO,)) == f"install {Part.PANGO}"


def test_a_part_without_a_package_follows_in_words() -> None:
    line = install_line(System.WINDOWS, (Part.PANGO, Part.BROWSER))
    assert line.startswith("pacman")
    assert line.endswith(f"; then install {Part.BROWSER}")
