"""The host's templates: compiled once for many builds, and not asked for a page that is kept."""

from collections.abc import Callable, Mapping
from typing import Any

from jinja2 import BytecodeCache, Environment, Template
from jinja2.bccache import Bucket

from builder.work.digest import digest
from builder.work.store import ContentStore

Answer = Callable[[Mapping[str, Any]], str | None]
"""Gets a template's context; returns the page where it is known already."""


class StoredTemplates(BytecodeCache):
    """Compiled templates by their text; what is broken is compiled again."""

    def __init__(self, store: ContentStore, tool: str) -> None:
        self._store = store
        self._tool = tool

    def load_bytecode(self, bucket: Bucket) -> None:
        """Fill a bucket with what is kept of its template, if anything is."""
        piece = self._store.get(self._key(bucket))
        if piece:
            bucket.bytecode_from_string(piece)

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a compiled template."""
        self._store.put(self._key(bucket), bucket.bytecode_to_string())

    def _key(self, bucket: Bucket) -> str:
        return digest("template", self._tool, bucket.key, bucket.checksum)


def answer_first(environment: Environment, answer: Answer) -> None:
    """Have an environment's templates ask for a finished page before they make it."""

    class Answered(Template):
        def render(self, *args: Any, **kwargs: Any) -> str:
            known = answer(dict(*args, **kwargs))
            return super().render(*args, **kwargs) if known is None else known

    environment.template_class = Answered
