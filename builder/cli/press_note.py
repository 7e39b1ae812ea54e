"""What a command that prints says of a machine on which PDFs are made otherwise than elsewhere."""

import sys

from builder.machine.libraries import has_subsetter


def tell_press() -> None:
    """Say on stderr where HarfBuzz's subsetter is missing; another library then cuts typefaces."""
    if not has_subsetter():
        print(
            "note: HarfBuzz's subsetter can't be loaded: these PDFs are sound, but took longer, "
            "and their bytes may differ from run to run; see how to get it with: tempoleaf doctor.",
            file=sys.stderr,
        )
