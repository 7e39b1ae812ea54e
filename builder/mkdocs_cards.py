"""The cards that a site links to, on their way to the host. Part of the plugin's shell."""

from pathlib import Path
from tempfile import TemporaryDirectory

from builder.findings import Finding
from builder.mkdocs_parts import Order
from builder.publishing.pages.excerpt import Excerpts
from builder.work.left import make_scratch
from builder.work.progress import Progress


def print_cards(
    excerpts: Excerpts | None, project: Path, order: Order, progress: Progress
) -> tuple[TemporaryDirectory[str] | None, tuple[Finding, ...]]:
    """Print what pages link to into a folder of its own, before the host empties its old site."""
    if not excerpts or not excerpts.site.papers:
        return None, ()
    from builder.publishing.site.cards import make_site_cards  # noqa: PLC0415  # loads in 0.5 s

    folder = make_scratch()
    try:
        faults = make_site_cards(
            excerpts, Path(folder.name), project, cluster=order.cluster, progress=progress
        )
        return folder, faults
    except BaseException:
        folder.cleanup()
        raise
