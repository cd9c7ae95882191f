"""The two tablets that the screens are tried on, and what has to be set before Kivy is imported.

Metrics are read when Kivy is imported, so each profile is tried in a process of its own: the one that the
environment variable `TEARDOWN_TABLET` names, else the first.
"""

from __future__ import annotations

import os
import tempfile
from typing import NamedTuple


class Tablet(NamedTuple):
    """A glass: pixels, dots per inch, density."""

    width: int
    height: int
    dpi: int
    density: float


TABLETS = {
    "10 inch landscape": Tablet(1280, 800, 149, 0.93),
    "8 inch portrait": Tablet(800, 1280, 189, 1.18),
}
NAME = os.environ.get("TEARDOWN_TABLET", "10 inch landscape")
TABLET = TABLETS[NAME]


def before_kivy() -> None:
    """Nothing of the person's own settings, no input devices, the metrics of the tablet."""
    for name in ("NO_ARGS", "NO_CONSOLELOG", "NO_FILELOG", "USE_DEFAULTCONFIG"):
        os.environ[f"KIVY_{name}"] = "1"
    os.environ["KIVY_HOME"] = tempfile.mkdtemp(prefix="teardown-kivy-")
    os.environ["KIVY_DPI"], os.environ["KIVY_METRICS_DENSITY"] = str(TABLET.dpi), str(TABLET.density)
    os.environ["KIVY_METRICS_FONTSCALE"] = "1"
    from kivy.config import Config

    Config.set("graphics", "multisamples", "0")
    Config.set("graphics", "width", str(TABLET.width))
    Config.set("graphics", "height", str(TABLET.height))
    Config.set("kivy", "log_level", "warning")
    for name, _ in Config.items("input"):
        Config.remove_option("input", name)
