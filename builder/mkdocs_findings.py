"""How what we find reaches the host. Part of the plugin's shell."""

import logging
import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from io import StringIO
from pathlib import Path
from traceback import extract_tb

from jinja2 import TemplateError
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException, PluginError

from builder.errors import BuilderError
from builder.findings import Finding, stops_publishing

_STRANGE = (
    *(ArithmeticError, AssertionError, AttributeError, EOFError, ImportError, LookupError),
    *(NameError, OSError, RuntimeError, SyntaxError, TypeError, ValueError, TemplateError),
)
"""What themes, hooks and plugins raise where something in them or in a setting is wrong."""


@contextmanager
def told_to_the_host() -> Iterator[None]:
    """Pass on what stops a run as the host's own kind of error."""
    try:
        yield
    except BuilderError as error:
        raise PluginError(str(error)) from error


@contextmanager
def told_by_the_host(project: Path) -> Iterator[None]:
    """Raise BuilderError for whatever stops the host, its theme, a hook or another plugin.

    What the tool itself passed on comes back in its own words.
    """
    words = StringIO()
    handler = logging.StreamHandler(words)
    handler.setLevel(logging.WARNING)
    logging.getLogger("mkdocs").addHandler(handler)
    try:
        yield
    except BuilderError:
        raise
    except MkDocsException as error:  # one of them is a SystemExit too
        own = _find_own_error(error)
        raise own or _tell_stop(words.getvalue().strip() or str(error)) from None
    except _STRANGE as error:
        if isinstance(error, OSError) and error.errno:
            raise
        raise _tell_stop(_word_strange_error(error, project)) from error
    except SystemExit as error:
        if error.code:  # the run was told to end
            raise
        raise _tell_stop("a theme, hook or plugin ended the run") from error
    finally:
        logging.getLogger("mkdocs").removeHandler(handler)


def _tell_stop(said: str) -> BuilderError:
    return BuilderError(f"MkDocs stopped: {said}", "mend what it names")


def _find_own_error(error: BaseException | None) -> BuilderError | None:
    """Return what was passed on by ``told_to_the_host``; None where the host stopped by itself.

    The host raises an error of its own once more, so ours lies some steps behind.
    """
    while error is not None:
        if isinstance(error, BuilderError):
            return error
        error = error.__cause__ or error.__context__
    return None


def _word_strange_error(error: Exception, project: Path) -> str:
    """Say what was raised and where, in the project's own files if it can be.

    The template engine names templates and their lines among the places of an error.
    """
    passed = [(frame.filename, frame.lineno) for frame in extract_tb(error.__traceback__)]
    known = [(Path(name), line) for name, line in passed if Path(name).is_file()]
    own = [(path, line) for path, line in known if _is_own(path, project)]
    path, line = (own or known)[-1]
    name = os.path.relpath(path, project) if own else str(path)
    return f"{name}:{line}: {type(error).__name__}: {error}"


def _is_own(path: Path, project: Path) -> bool:
    """Tell whether a file is a project's, and not of a package that is installed in it."""
    return path.resolve().is_relative_to(project.resolve()) and "site-packages" not in path.parts


def stop_the_build(findings: Iterable[Finding], config: MkDocsConfig) -> bool:
    """Tell whether any finding stands in the way of publishing."""
    return any(stops_publishing(finding, strict=bool(config.strict)) for finding in findings)
