"""The app with a window that is closed at once: `python -m tests.ui.closed_app HOME TOLD WAY`.

`hangs`: the reader of a picture file never comes back. `faults`: a driver faults while Python takes itself down.
"""

from __future__ import annotations

import atexit
import os
import signal
import sys
from pathlib import Path
from threading import Event
from time import sleep
from types import ModuleType
from typing import Any

from teardown_app.ui import start
from teardown_app.ui.guard import after_fault
from tests.patience import WHOLE_RUN_S

HOME, TOLD, WAY = Path(sys.argv[1]), Path(sys.argv[2]), sys.argv[3]
HANGS_S = 2 * WHOLE_RUN_S
"""Whoever waits for it is not through in time."""


class ClosedApp:
    """In place of the window: a picture is being read when it is closed."""

    def __init__(self, desk: Any) -> None:
        self.desk = desk

    def run(self) -> None:
        """Reads a picture that does not end, and closes as the window does."""
        import numpy as np

        with TOLD.open("a") as told:
            print(f"{WAY}, after {after_fault() or 'nothing'}", file=told)
        reading = Event()

        def read(_report: Any) -> None:
            self.desk.watching.reader.box.begin(np.zeros((4, 4), np.uint8))
            reading.set()
            if WAY == "hangs":
                sleep(HANGS_S)

        self.desk.slow.start("Reading the picture:", read, lambda _none: None)
        reading.wait(WHOLE_RUN_S)
        if WAY == "faults":
            atexit.register(lambda: os.kill(os.getpid(), signal.SIGSEGV))
        self.desk.close()
        sys.stdout.write("closed\n")


def main() -> int:
    """Starts the app as its guard does, without Kivy."""
    window = ModuleType("teardown_app.ui.app")
    window.TeardownApp = ClosedApp  # type: ignore[attr-defined]
    sys.modules[window.__name__] = window
    start.before_kivy = lambda own: own.mkdir(parents=True, exist_ok=True)
    sys.argv = ["app", "--home", str(HOME)]
    return start.start()


if __name__ == "__main__":
    sys.exit(main())
