"""Where label stocks and letters lie: beside the program when installed, in `assets` in a working copy."""

from __future__ import annotations

from pathlib import Path

_ROOM = Path(__file__).resolve().parent


def supply(name: str) -> Path:
    """The path of a file of the app's own, such as `label_stock.toml` or `fonts/DejaVuSansCondensed.ttf`."""
    installed = _ROOM.parent / "_assets" / name
    return installed if installed.exists() else _ROOM.parent.parent / "assets" / name
