"""Names of translations: the original's with the language before the ending."""

from collections.abc import Collection
from pathlib import PurePosixPath


def name_translation(path: str, language: str) -> str:
    """Return the name of an original's translation: ``safety.md`` gives ``safety.es.md``."""
    stem, dot, ending = path.rpartition(".")
    return f"{stem}.{language}{dot}{ending}"


def split_language(path: str, languages: Collection[str]) -> tuple[str, str]:
    """Return the original's name and the language; the name itself and nothing if it is none."""
    pure = PurePosixPath(path)
    stem, dot, tag = pure.stem.rpartition(".")
    if not dot or tag not in languages:
        return path, ""
    return pure.with_name(f"{stem}{pure.suffix}").as_posix(), tag
