"""The guard and the black box: an app that dies in a reader is started again on the screen and draft it had."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from teardown_app.ui.black_box import HEADER, BlackBox, digest_of
from teardown_app.ui.guard import AFTER, AGAIN, CAMERA_OFF, CHILD, guarded, is_fault
from tests.patience import WHOLE_RUN_S, until
from tests.ui.window import needs_a_window, window

PROJECT = Path(__file__).parents[2]
Clock = Callable[[], float]
pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals are asked for")

LIFE = f"""
import os, signal, sys
with open(sys.argv[1], 'a') as told:
    print(os.environ['{AFTER}'], os.environ['{CHILD}'], file=told)
lives = len(open(sys.argv[1]).readlines())
if lives <= int(sys.argv[2]):
    os.kill(os.getpid(), getattr(signal, sys.argv[3]))
sys.exit(int(sys.argv[4]))
"""

TOLD_TO_END = """
import os, pathlib, signal, sys, time
signal.signal(signal.SIGTERM, lambda *_: sys.exit(5))
guard = pathlib.Path(f"/proc/{{os.getppid()}}/status")
while guard.exists():  # until the guard hears it too: the signals that it catches, as bits (proc_pid_status(5))
    caught = next(line.split()[1] for line in guard.read_text().splitlines() if line.startswith("SigCgt"))
    if int(caught, 16) >> signal.SIGTERM - 1 & 1:
        break
    time.sleep(0.01)
pathlib.Path({ready!r}).touch()
time.sleep({longest_s})
"""


def lives(folder: Path, deaths: int, by: str = "SIGSEGV", code: int = 0, clock: Clock = lambda: 0.0) -> list[str]:
    """Runs a child that dies so often, by a clock that stands still; what each life was told, then the exit code."""
    told = folder / "told"
    command = [sys.executable, "-S", "-c", LIFE, str(told), str(deaths), by, str(code)]
    ended = guarded(command, clock)
    return [*(line.removesuffix(" 1\n") for line in told.open()), str(ended)]


def test_a_fault_starts_it_again_and_a_normal_end_does_not(tmp_path: Path) -> None:
    """Twice by a fault, then closed with a code of its own, which is handed on."""
    assert lives(tmp_path, 2, code=7) == ["", AGAIN, AGAIN, "7"]


@pytest.mark.parametrize("by", ["SIGTERM", "SIGKILL"])
def test_one_that_somebody_killed_stays_away(tmp_path: Path, by: str) -> None:
    """The usual code of a shell for a signal: 128 and its number (POSIX shells)."""
    assert lives(tmp_path, 1, by) == ["", str(128 + getattr(signal, by))]


def test_after_three_restarts_in_two_minutes_the_camera_stays_off(tmp_path: Path) -> None:
    """The fifth life is the last one; faults that are far apart are counted anew."""
    assert lives(tmp_path, 9) == ["", AGAIN, AGAIN, AGAIN, CAMERA_OFF, str(128 + signal.SIGSEGV)]
    now = iter(range(0, 10_000, 121))
    folder = tmp_path / "slowly"
    folder.mkdir()
    assert lives(folder, 5, clock=lambda: float(next(now))) == ["", *[AGAIN] * 5, "0"]


def test_codes_of_faults() -> None:
    """Access violation, stack buffer overrun and heap corruption of Windows; Ctrl-C is none (NTSTATUS values,
    MS-ERREF 2.3.1, from memory)."""
    for code in (0xC0000005, 0xC0000409, 0xC0000374, 0xC0000005 - 2**32):
        assert is_fault(code, windows=True)
    for code in (0, 1, 2, 0xC000013A):
        assert not is_fault(code, windows=True)


def test_what_the_guard_is_told_the_app_is_told(tmp_path: Path) -> None:
    """SIGTERM to the guard ends the child in its own way, with its own code."""
    child = tmp_path / "child.py"
    ready = tmp_path / "ready"
    child.write_text(TOLD_TO_END.format(ready=str(ready), longest_s=WHOLE_RUN_S), encoding="utf-8")
    code = f"from teardown_app.ui.guard import guarded; raise SystemExit(guarded([{sys.executable!r}, {str(child)!r}]))"
    with subprocess.Popen([sys.executable, "-c", code], cwd=PROJECT) as guard:
        until(ready.exists)
        guard.send_signal(signal.SIGTERM)
        assert guard.wait(WHOLE_RUN_S) == 5


def test_the_guard_brings_in_nothing_heavy() -> None:
    """It stays in memory all day: the standard library, and of that no window and no numpy."""
    code = "import sys, teardown_app.ui.__main__, teardown_app.ui.guard; print(*sorted(sys.modules))"
    loaded = subprocess.run([sys.executable, "-c", code], cwd=PROJECT, capture_output=True, text=True, check=True)
    ours = {one for one in loaded.stdout.split() if one.startswith("teardown_app")}
    assert ours == {"teardown_app", "teardown_app.ui", "teardown_app.ui.__main__", "teardown_app.ui.guard"}
    assert not {"kivy", "numpy", "attr", "PIL"} & set(loaded.stdout.split())


def test_the_picture_that_was_being_read_is_kept_aside(tmp_path: Path) -> None:
    """One that was read through is not; one kept aside is known again after a start."""
    grey = np.arange(12, dtype=np.uint8).reshape(3, 4)
    box = BlackBox(tmp_path)
    box.begin(grey)
    box.end()
    assert BlackBox(tmp_path).set_aside() == ""
    BlackBox(tmp_path).begin(grey)
    after = BlackBox(tmp_path)
    kept = Path(after.set_aside())
    assert kept.is_file() and after.set_aside() == ""
    assert BlackBox(tmp_path).not_to_read == {digest_of(grey)} == {kept.stem}


@pytest.mark.parametrize("torn", [b"", b"\x01\0\0\0", HEADER.pack(1, 65535, 65535, b"") + b"short"])
def test_a_torn_box_is_no_picture(tmp_path: Path, torn: bytes) -> None:
    """A power cut may leave anything in the file."""
    (tmp_path / "being-read").write_bytes(torn)
    assert BlackBox(tmp_path).set_aside() == ""


@pytest.mark.parametrize("way", ["hangs", "faults"])
def test_a_closed_app_is_gone_and_stays_away(tmp_path: Path, way: str) -> None:
    """A reader hangs in a picture file, or a driver faults while Python takes itself down: nothing waits, the guard
    starts nothing again, and no picture is left to be blamed for a later fault."""
    told = tmp_path / "told"
    command = [sys.executable, "-m", "tests.ui.closed_app", str(tmp_path / "home"), str(told), way]
    code = f"import sys; from teardown_app.ui.guard import guarded; sys.exit(guarded({command!r}))"
    command = [sys.executable, "-c", code]
    done = subprocess.run(command, cwd=PROJECT, capture_output=True, text=True, timeout=WHOLE_RUN_S)
    assert done.returncode == 0, done.stderr[-3000:]
    assert told.read_text() == f"{way}, after nothing\n" and done.stdout == "closed\n"
    assert BlackBox(tmp_path / "home" / "private").set_aside() == ""


@needs_a_window
def test_the_app_comes_back_on_the_screen_and_draft_it_had(tmp_path: Path) -> None:
    """The real app in a real window: SIGSEGV in the reader's thread while a finding is half-entered."""
    told = tmp_path / "told.json"
    code = (
        "import sys; from teardown_app.ui.guard import guarded; "
        f"sys.exit(guarded([sys.executable, '-m', 'tests.ui.dying_app', {str(tmp_path)!r}, {str(told)!r}]))"
    )
    with window() as environment:
        command = [sys.executable, "-c", code]
        done = subprocess.run(
            command, cwd=PROJECT, env=environment, capture_output=True, text=True, timeout=WHOLE_RUN_S
        )
    assert done.returncode == 0, done.stdout[-3000:] + done.stderr[-3000:]
    before, after = json.loads(told.read_text())
    assert before["after"] == "" and after["after"] == AGAIN
    assert before["entry"] == after["entry"] and after["entry"]["typed"] == "half a wo"
    assert before["screen"] == after["screen"] == "part" and before["state"] == after["state"]
    assert "fault in reading a picture; nothing recorded is lost" in after["says"]
    assert after["records"] == before["records"] > 1
    assert after["kept"] == 1 and after["read again"] is True and after["camera"] is True
