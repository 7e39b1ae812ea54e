"""How what we find reaches the host. Part of the plugin's shell."""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from builder.errors import BuilderError
from builder.findings import Finding, stops_publishing


@contextmanager
def told_to_the_host() -> Iterator[None]:
    """Pass on what stops a run as the host's own kind of error."""
    try:
        yield
    except BuilderError as error:
        raise PluginError(str(error)) from error


def find_own_error(error: BaseException | None) -> BuilderError | None:
    """Return what was passed on by ``told_to_the_host``; None where the host stopped by itself.

    The host raises an error of its own once more, so ours lies some steps behind.
    """
    while error is not None:
        if isinstance(error, BuilderError):
            return error
        error = error.__cause__ or error.__context__
    return None


def stop_the_build(findings: Iterable[Finding], config: MkDocsConfig) -> bool:
    """Tell whether any finding stands in the way of publishing."""
    return any(stops_publishing(finding, strict=bool(config.strict)) for finding in findings)
