"""The time that a build is told to give in what it makes (reproducible-builds.org)."""

from datetime import UTC, datetime

from builder.errors import BuilderError


def read_build_time(epoch: str | None) -> datetime | None:
    """Return the time of SOURCE_DATE_EPOCH, in seconds since 1970; None where it isn't set.

    It may lie ahead, as where a clock was set back. Raises BuilderError for what is no time.
    """
    if not epoch:
        return None
    try:
        return datetime.fromtimestamp(int(epoch), UTC)
    except (ValueError, OverflowError, OSError) as error:
        raise BuilderError(
            f'SOURCE_DATE_EPOCH is "{epoch}"', "give seconds since 1970, or unset it"
        ) from error
