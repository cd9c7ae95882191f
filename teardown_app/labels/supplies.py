"""Where the files that come with the app lie: in the installed package, or in `assets` and `sample_bills`."""

from __future__ import annotations

from pathlib import Path

_ROOM = Path(__file__).resolve().parent


def supply(name: str) -> Path:
    """The path of a file of the app's own, such as `label_stock.toml` or `fonts/DejaVuSansCondensed.ttf`."""
    installed = _ROOM.parent / "_assets" / name
    return installed if installed.exists() else _ROOM.parent.parent / "assets" / name


def sample_bill(name: str) -> Path:
    """The folder of a sample bill that a demo opens, such as `brd-25`."""
    return supply("materials.toml").parent.parent / "sample_bills" / name
