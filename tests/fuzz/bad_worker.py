"""A worker that hangs or dies, to see what the long run makes of it."""

import os
import signal
import sys
import time
from pathlib import Path

if __name__ == "__main__":
    mood, folder, *_ = sys.argv[1:]
    Path(folder, "now").write_bytes(b"what was tried")
    if mood == "die":
        os.kill(os.getpid(), signal.SIGKILL)
    time.sleep(600)
