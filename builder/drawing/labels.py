"""Labels: the few words that are drawn, in the language of the course."""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.course.tempo import Step, Tempo
from builder.language import Language, language_of


@dataclass(frozen=True, slots=True)
class Labels:
    """The words under a figure and on a tempo strip."""

    language: Language
    """What says them, and the descriptions besides."""

    @property
    def breaths(self) -> tuple[str, str]:
        """Return what stands under the two pictures of a figure."""
        say_as = self.language.say_as
        return (say_as("under a figure", "in-breath"), say_as("under a figure", "out-breath"))

    @property
    def steps(self) -> Mapping[Step, str]:
        """Return what to do in each phase of a breath, in the fewest words."""
        say_as = self.language.say_as
        return {
            Step.IN: say_as("tempo strip", "in"),
            Step.HOLD: say_as("tempo strip", "hold"),
            Step.OUT: say_as("tempo strip", "out"),
            Step.PAUSE: say_as("tempo strip", "pause"),
        }

    @property
    def own_pace(self) -> str:
        """Return what a strip says where nobody counts."""
        return self.language.say_as("tempo strip", "at your own pace")


def labels_in(language: str) -> Labels:
    """Return the labels for a language tag such as ``es-MX``; English where there are none."""
    return Labels(language_of(language))


def write_tempo(tempo: Tempo, language: Language) -> str:
    """Write a tempo with the language's decimal sign, such as 5,5-0-5,5-0."""
    return "-".join(language.number(seconds) for seconds in tempo.phases)


ENGLISH = labels_in("en-GB")
