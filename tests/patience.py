"""How long a test waits for what is sure to come: as long as the whole run, so that no busy machine fails it."""

from __future__ import annotations

from collections.abc import Callable
from time import monotonic, sleep

WHOLE_RUN_S = 900.0
"""15 minutes: docs/decisions/0017."""
LOOK_EVERY_S = 0.002


def until(so: Callable[[], object], meanwhile: Callable[[], object] = lambda: sleep(LOOK_EVERY_S)) -> None:
    """Waits until another thread or process has made something so."""
    end = monotonic() + WHOLE_RUN_S
    while not so():
        assert monotonic() < end, "it never came"
        meanwhile()
