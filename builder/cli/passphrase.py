"""Asking for a passphrase; it never stands on a command line, where others could read it."""

import os

import typer

VARIABLE = "TEMPOLEAF_PASSPHRASE"
"""For a machine's own nightly backup; the environment is no safe place on a shared computer."""


def ask_passphrase(*, is_new: bool) -> str:
    """Return the passphrase of the environment, or ask for it without showing it."""
    given = os.environ.get(VARIABLE)
    if given:
        return given
    words = "Passphrase" if not is_new else "A passphrase that you won't lose"
    typed: str = typer.prompt(words, hide_input=True, confirmation_prompt=is_new)
    return typed
