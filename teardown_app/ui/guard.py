"""The guard: starts the app as its child, and again when a fault in native code ended it.

It knows the standard library only and opens nothing. What was half-entered comes back by itself, for the app
keeps it; the lock on the data folder goes with the dead child. An app that was closed, that gave up with a code of
its own, or that somebody killed stays away.
"""

from __future__ import annotations

import os
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from time import monotonic

CHILD, AFTER = "TEARDOWN_GUARDED", "TEARDOWN_AFTER_FAULT"
AGAIN, CAMERA_OFF = "again", "camera off"
MOST, WITHIN_S = 3, 120.0
"""So often is it started again in so many seconds; then once more with the camera switched off."""

FAULTS = tuple(
    int(getattr(signal, name))
    for name in ("SIGSEGV", "SIGABRT", "SIGBUS", "SIGILL", "SIGFPE", "SIGSYS")
    if hasattr(signal, name)
)
WINDOWS_FAULTS, WINDOWS_CTRL_C, WINDOWS_ABORT = range(0xC0000000, 0xD0000000), 0xC000013A, 3
"""Codes of unhandled exceptions (NTSTATUS, severity error), Ctrl-C among them, and that of C's abort: from memory."""
PASSED_ON = tuple(getattr(signal, name) for name in ("SIGTERM", "SIGHUP", "SIGINT") if hasattr(signal, name))


def is_child() -> bool:
    """True in the app itself, and where no guard is possible: Android has one process."""
    return bool(os.environ.get(CHILD)) or hasattr(sys, "getandroidapilevel")


def after_fault() -> str:
    """`again` after a fault, `camera off` after several, empty at a start that a person made."""
    return os.environ.get(AFTER, "")


def own_command() -> list[str]:
    """How this program is started again with the same words: as a module, or packed."""
    packed = getattr(sys, "frozen", False)
    return [sys.executable, *sys.argv[1:]] if packed else [sys.executable, "-m", "teardown_app.ui", *sys.argv[1:]]


def is_fault(code: int, windows: bool = sys.platform == "win32") -> bool:
    """True for an end by a fault in native code.

    >>> is_fault(-11, windows=False), is_fault(0, windows=False), is_fault(-15, windows=False)
    (True, False, False)
    >>> is_fault(0xC0000005, windows=True), is_fault(0xC000013A, windows=True), is_fault(2, windows=True)
    (True, False, False)
    """
    if not windows:
        return -code in FAULTS
    unsigned = code & 0xFFFFFFFF
    return unsigned == WINDOWS_ABORT or (unsigned in WINDOWS_FAULTS and unsigned != WINDOWS_CTRL_C)


def guarded(command: Sequence[str], clock: Callable[[], float] = monotonic) -> int:
    """Runs the app until it ends otherwise than by a fault; gives its exit code."""
    faults: list[float] = []
    after = ""
    while True:
        code = _run(command, after)
        now = clock()
        faults = [one for one in faults if now - one < WITHIN_S]
        if not is_fault(code) or (after == CAMERA_OFF and faults):
            return code if code >= 0 else 128 - code
        faults.append(now)
        after = CAMERA_OFF if after == CAMERA_OFF or len(faults) > MOST else AGAIN


def _run(command: Sequence[str], after: str) -> int:
    """One life of the app."""
    words = {**os.environ, CHILD: "1", AFTER: after, "PYINSTALLER_RESET_ENVIRONMENT": "1"}
    own_group = None if sys.platform == "win32" else 0  # else Ctrl-C would come twice
    with subprocess.Popen(command, env=words, process_group=own_group) as child, _signals_go_to(child):
        while True:
            try:
                return child.wait()
            except KeyboardInterrupt:  # Windows: the console tells the child as well
                continue


@contextmanager
def _signals_go_to(child: subprocess.Popen[bytes]) -> Iterator[None]:
    """What the guard is told, the child is told."""
    if sys.platform == "win32":
        yield
        return
    before = {one: signal.signal(one, lambda number, _: child.send_signal(number)) for one in PASSED_ON}
    try:
        yield
    finally:
        for one, handler in before.items():
            signal.signal(one, handler)
