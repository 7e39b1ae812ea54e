"""Labels: the few words that are drawn, in the language of the course."""

from collections.abc import Mapping
from dataclasses import dataclass

from builder.course.tempo import Step


@dataclass(frozen=True, slots=True)
class Labels:
    """The words under a figure and on a tempo strip."""

    in_breath: str
    out_breath: str
    steps: Mapping[Step, str]
    own_pace: str

    @property
    def breaths(self) -> tuple[str, str]:
        """Return what stands under the two pictures of a figure."""
        return (self.in_breath, self.out_breath)


def _make(breaths: tuple[str, str], steps: tuple[str, str, str, str], own_pace: str) -> Labels:
    order = (Step.IN, Step.HOLD, Step.OUT, Step.PAUSE)
    return Labels(*breaths, dict(zip(order, steps, strict=True)), own_pace)


ENGLISH = _make(("in-breath", "out-breath"), ("in", "hold", "out", "pause"), "at your own pace")
_LABELS = {
    "en": ENGLISH,
    "es": _make(("al inhalar", "al exhalar"), ("inhala", "retén", "exhala", "pausa"), "a tu ritmo"),
    "de": _make(("Einatmen", "Ausatmen"), ("ein", "halten", "aus", "Pause"), "im eigenen Tempo"),
}


def labels_in(language: str) -> Labels:
    """Return the labels for a language tag such as ``es-MX``; English where there are none."""
    return _LABELS.get(language.split("-", maxsplit=1)[0].lower(), ENGLISH)
