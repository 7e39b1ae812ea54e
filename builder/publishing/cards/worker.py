"""What a worker process is given to run; it loads the PDF engine when it begins."""

from builder.errors import BuilderError
from builder.publishing.cards.batch import Batch, PrintedBatch


def run_batch(batch: Batch) -> PrintedBatch:
    """Print a batch; the PDF engine is loaded here and not before."""
    try:
        from builder.publishing.cards.press import print_batch  # noqa: PLC0415  # loads in 0.4 s
    except OSError as error:
        raise BuilderError(
            "cards can't be printed: a system library of the PDF engine is missing",
            "see which one with: tempoleaf doctor",
        ) from error
    return print_batch(batch)
