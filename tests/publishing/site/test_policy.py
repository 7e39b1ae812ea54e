"""The policy of a page: its own scripts by their hashes, and nothing from elsewhere."""

import re

import pytest

from builder.publishing.site.policy import HEADERS, add_policy

PAGE = """<!doctype html>
<html><head>
  <meta charset="utf-8">
  <script>alert('Hello, world.');</script>
  <script type="application/json">{"a": 1}</script>
  <script src="assets/a.js"></script>
</head><body><script type="module">let a;</script><p>1 &lt; 2 <script></script></body></html>
"""
# The worked example on hashes in W3C's Content Security Policy, level 3.
HELLO = "'sha256-qznLcsROx4GACP2dm0UCKCzCG+HiZ1guq6ZZDob/Tng='"


def policy_of(html: str) -> dict[str, list[str]]:
    (text,) = re.findall(r'http-equiv="Content-Security-Policy" content="([^"]*)"', html)
    return {name: values for name, *values in (rule.split() for rule in text.split("; "))}


def test_a_script_is_known_by_its_hash() -> None:
    scripts = policy_of(add_policy(PAGE))["script-src"]
    assert scripts[0] == "'self'"
    assert HELLO in scripts
    assert len(scripts) == 3  # neither data nor a file of its own has a hash


def test_nothing_is_allowed_that_is_not_named() -> None:
    policy = policy_of(add_policy(PAGE))
    assert policy["default-src"] == ["'none'"]
    assert not any("unsafe" in value or "*" in value for each in policy.values() for value in each)
    sources = {value for each in policy.values() for value in each}
    assert {value for value in sources if not value.startswith("'")} == {"data:"}


def test_it_stands_before_all_that_it_rules() -> None:
    page = add_policy(PAGE)
    assert page.index("Content-Security-Policy") < page.index("<script")
    assert page.replace(re.findall(r"<meta http-equiv[^>]*>", page)[0], "") == PAGE


@pytest.mark.parametrize(
    "html", ["<html><head><title>x</title></head></html>", "<HEAD><META CHARSET=x>"]
)
def test_a_head_of_any_form_gets_one(html: str) -> None:
    assert add_policy(html).count("Content-Security-Policy") == 1


def test_the_headers_say_what_a_page_can_not() -> None:
    lines = [line.strip() for line in HEADERS.splitlines()[1:]]
    assert "Content-Security-Policy: frame-ancestors 'none'" in lines
    assert all(re.fullmatch(r"[A-Z][A-Za-z-]+: [ -~]+", line) for line in lines)
