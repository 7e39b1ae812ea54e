"""What each page of the host gets: what was laid aside, policy, the way to other languages."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from builder.publishing.pages.asides import put_back
from builder.publishing.site.frame import mend_frame
from builder.publishing.site.policy import add_policy
from builder.publishing.site.switch import Other, Switch
from builder.work.digest import digest


@dataclass(frozen=True, slots=True)
class Additions:
    """What is ours on the pages of one build."""

    asides: Mapping[str, Sequence[str]]
    """By page, in their order."""
    switch: Switch | None
    has_policy: bool
    """False for a preview, whose host adds its own script."""

    def list_others(self, page: str) -> tuple[Other, ...]:
        """Return the same page in other languages."""
        return self.switch.list_others(page) if self.switch else ()

    def finish_page(self, page: str, html: str) -> str:
        """Put back what was laid aside, and finish a page; BuilderError where it lost its place."""
        return self.finish(put_back(html, self.asides.get(page, ())))

    def finish(self, html: str) -> str:
        """Mend the theme's frame, and say what a page may load."""
        mended = mend_frame(html)
        return add_policy(mended) if self.has_policy else mended

    def describe(self, page: str) -> str:
        """Return a digest of all of it, as a part of the page's key."""
        asides = self.asides.get(page, ())
        return digest(repr((self.list_others(page), self.has_policy)), *asides)
