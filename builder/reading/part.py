"""What every part of a header has in common."""

from pydantic import BaseModel, ConfigDict


class Part(BaseModel):
    """A mapping of a header: strict types, no key that is not named here."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)
