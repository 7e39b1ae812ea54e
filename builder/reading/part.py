"""What every part of a header has in common."""

from typing import ClassVar

from pydantic import BaseModel, ConfigDict


class Part(BaseModel):
    """A mapping of a header: strict types, no key that is not named here."""

    has_short_lists: ClassVar[bool] = False
    """Whether each list in it names few things, as in a lesson's header."""
    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)
