"""Addresses: what may go into a page, a code and the site's settings."""

import pytest

from builder.course.address import check_address
from builder.errors import InvalidValueError


@pytest.mark.parametrize(
    "address",
    [
        "https://studio.example/",
        "http://studio.example:8080/course",
        "https://xn--bcher-kva.example",
    ],
)
def test_a_whole_web_address_is_taken_as_it_is(address: str) -> None:
    assert check_address(f" {address}\n") == address


@pytest.mark.parametrize(
    "address",
    [
        "studio.example",
        "javascript:alert(1)",
        "https://",
        "https://[::1",
        "https://a.example:port/",
        'https://a.example/"onload=',
        "https://a.example/<b>",
        "https://a.example/?q=1",
        "https://a.example/#top",
        "https://a b.example/",
        "https://bücher.example/",
        f"https://a.example/{'x' * 200}",
    ],
)
def test_what_is_no_address_of_a_site_is_refused(address: str) -> None:
    with pytest.raises(InvalidValueError, match="is no web address for a site"):
        check_address(address)
