"""The same bench as for reassembly, and a photograph as a camera writes it."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image

from tests.workflows.reassembly.conftest import bench, second

__all__ = ["bench", "picture", "second"]


@pytest.fixture
def picture(tmp_path: Path) -> Path:
    """A photograph with a place and a camera in its metadata, in a folder with a blank and an umlaut."""
    exif = Image.Exif()
    exif[0x010F] = "SECRET CAMERA"
    exif.get_ifd(0x8825).update({1: "N", 2: (48.0, 8.0, 14.0), 29: "SECRET 2026:03:14"})
    folder = tmp_path / "Fotos für mich"
    folder.mkdir()
    path = folder / "bowl.jpg"
    Image.new("RGB", (2600, 1300), (90, 120, 140)).save(path, exif=exif, comment=b"SECRET COMMENT")
    return path
