"""Keys of what is kept between builds: alike in every process, and different for any difference."""

import os
import subprocess
import sys

from builder.publishing.keys import spell
from builder.work.digest import digest

SPELL = "from builder.publishing.keys import spell; print(spell(frozenset('abcdefgh')))"


def test_a_set_is_spelled_alike_in_every_process() -> None:
    spelled = {
        subprocess.run(
            [sys.executable, "-c", SPELL],
            env={**os.environ, "PYTHONHASHSEED": seed},
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2", "3")
    }
    assert len(spelled) == 1


def test_a_text_that_looks_like_a_set_stays_as_it_is() -> None:
    texts = ["frozenset({'b', 'a'})", "frozenset({'a', 'b'})"]
    first, second = (spell((text, frozenset("xy"))) for text in texts)
    assert first != second
    assert "{'b', 'a'}" in first


def test_parts_never_run_into_each_other() -> None:
    assert digest("a", "bc") != digest("ab", "c") != digest("abc")
