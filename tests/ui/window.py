"""A window without a display: an X server of its own for whoever needs one, so that many may run side by side."""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

SERVER = "Xvfb"
needs_a_window = pytest.mark.skipif(
    shutil.which(SERVER) is None, reason="no window can be opened here: apt-get install xvfb libgl1 libgl1-mesa-dri"
)


@contextmanager
def window() -> Iterator[dict[str, str]]:
    """The environment of a program that opens its window there; the server finds a free number by itself."""
    told, tells = os.pipe()
    command = [SERVER, "-displayfd", str(tells), "-screen", "0", "1400x1400x24", "-nolisten", "tcp"]
    with subprocess.Popen(command, pass_fds=(tells,), stderr=subprocess.DEVNULL) as server:
        os.close(tells)
        try:
            with os.fdopen(told) as said:
                number = said.readline().strip()
            assert number, "the X server did not start"
            yield {**os.environ, "DISPLAY": f":{number}", "LIBGL_ALWAYS_SOFTWARE": "1"}
        finally:
            server.terminate()
