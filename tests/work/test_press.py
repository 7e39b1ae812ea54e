"""What prints is known by its versions, without the engine, and as the engine itself sees them."""

import subprocess
import sys

from weasyprint.text.ffi import ffi, harfbuzz_subset, pango

from builder.work.press import digest_press, list_text_libraries
from builder.work.tool import digest_tool

ASKED = """
import sys
from builder.work.press import digest_press
loaded = [name for name in ("weasyprint", "cffi", "fontTools") if name in sys.modules]
print(digest_press(), *loaded)
"""


def test_the_libraries_are_those_that_the_engine_uses() -> None:
    ffi.cdef("const char *pango_version_string (void);", override=True)
    ffi.cdef("const char *hb_version_string (void);", override=True)
    told = dict(each.split() for each in list_text_libraries())
    assert told["pango"] == ffi.string(pango.pango_version_string()).decode()
    assert told["harfbuzz"] == ffi.string(harfbuzz_subset.hb_version_string()).decode()
    assert told["harfbuzz-subset"] == "here"


def test_no_engine_is_loaded_to_know_them_and_each_process_says_the_same() -> None:
    done = subprocess.run([sys.executable, "-c", ASKED], capture_output=True, text=True, check=True)
    assert done.stdout.split() == [digest_press()]


def test_what_prints_is_more_than_the_tool() -> None:
    assert digest_press() != digest_tool()
