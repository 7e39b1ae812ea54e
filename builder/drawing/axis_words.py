"""The axes of demand as words, for the heads of charts and cards."""

from collections.abc import Mapping

from builder.language import Language


def name_axes(language: Language) -> Mapping[str, str]:
    """Return the word for each of AXES."""
    say_as = language.say_as
    return {
        "position": say_as("what a drill asks", "position"),
        "tempo": say_as("what a drill asks", "tempo"),
        "hold": say_as("what a drill asks", "hold"),
        "load": say_as("what a drill asks", "load"),
        "range": say_as("what a drill asks", "range"),
        "limbs": say_as("what a drill asks", "limbs"),
        "rotation": say_as("what a drill asks", "rotation"),
        "balance": say_as("what a drill asks", "balance"),
    }
