"""Starts the touch app where it is packed: no Python of one's own, nothing to install first."""

from __future__ import annotations

import ctypes.util
import sys
from pathlib import Path

PACKED = getattr(sys, "_MEIPASS", "")
"""Folder of the packed files; empty where this file is run as it stands."""


def offer_packed_zbar() -> None:
    """Lets the second tag reader find the zbar that lies in the pack.

    It asks the system for the library by name, and on Linux the system knows nothing of the pack.
    """
    asked_of_system = ctypes.util.find_library

    def find_library(name: str) -> str | None:
        packed = sorted(Path(PACKED).glob(f"lib{name}.so*")) if name == "zbar" else []
        return str(packed[0]) if packed else asked_of_system(name)

    ctypes.util.find_library = find_library


if __name__ == "__main__":
    if PACKED and sys.platform == "linux":
        offer_packed_zbar()
    from teardown_app.ui.__main__ import main

    sys.exit(main())
