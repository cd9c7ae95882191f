"""A print service that is none: small programs named lp, lpr and lpstat that write down how they were called.

What they answer is in files beside them, so that a test can stop a queue, refuse a file or never answer.
"""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from teardown_app.labels import print_queue

LP = """#!/bin/sh
here=$(dirname "$0")
printf '%s\\n' "$@" > "$here/called_NAME"
for last; do :; done
cp "$last" "$here/taken.pdf"
if [ -f "$here/hangs" ]; then : > "$here/hanging"; exec sleep 3600; fi
if [ -f "$here/dies" ]; then kill -9 $$; fi
if [ -f "$here/refuses" ]; then echo "NAME: Error - the scheduler is not responding!" >&2; exit 1; fi
echo "request id is bench-17 (1 file(s))"
"""
LPSTAT = """#!/bin/sh
here=$(dirname "$0")
if [ -f "$here/asleep" ]; then : > "$here/hanging"; exec sleep 3600; fi
cat "$here/printers"
"""
READY = "printer {0} is idle.  enabled since Mon 01 Jun 2026 07:10:00 AM UTC\n"
STOPPED = "printer {0} disabled since Mon 01 Jun 2026 07:10:00 AM UTC -\n\tout of labels\n"
BUSY = "printer {0} now printing {0}-17.  enabled since Mon 01 Jun 2026 07:10:00 AM UTC\n"
HOLDING = "printer {0} is holding new jobs.  enabled since Mon 01 Jun 2026 07:10:00 AM UTC\n"
"""Lines as CUPS' lpstat prints them in the language C: the texts of `systemv/lpstat.c` (`show_printers`)."""


class FakeService:
    """The service in one folder."""

    def __init__(self, folder: Path, *, programs: tuple[str, ...] = ("lp", "lpstat")) -> None:
        self.folder = folder
        folder.mkdir()
        for name in programs:
            program = folder / name
            program.write_text((LPSTAT if name == "lpstat" else LP).replace("NAME", name), encoding="utf-8")
            program.chmod(0o755)
        self.printers(bench="", office="")
        self._now, self._look_s = 0.0, 0.0

    def printers(self, **stopped: str) -> None:
        """The queues by name; a word for those that are stopped."""
        lines = [(STOPPED if why else READY).format(name) for name, why in stopped.items()]
        (self.folder / "printers").write_text("".join(lines), encoding="utf-8")

    def says(self, *lines: str) -> None:
        """What lpstat prints, line for line."""
        (self.folder / "printers").write_text("".join(lines), encoding="utf-8")

    def does(self, what: str) -> None:
        """From now on it hangs, dies (killed), refuses, or is asleep."""
        (self.folder / what).touch()

    def recovers(self, what: str) -> None:
        """It does so no more."""
        for name in (what, "hanging"):
            (self.folder / name).unlink(missing_ok=True)

    def is_given_up(self) -> None:
        """From now on the app counts ten seconds at each look at a program that hangs."""
        self._look_s = 10.0

    def clock(self) -> float:
        """Seconds as the app counts them: none pass, however slow the machine, unless a program is to be given up."""
        if (self.folder / "hanging").exists():
            self._now += self._look_s
        return self._now

    def called(self, name: str = "lp") -> list[str]:
        """What the program was called with."""
        said = self.folder / f"called_{name}"
        return said.read_text(encoding="utf-8").splitlines() if said.exists() else []

    @property
    def taken(self) -> bytes:
        """The file that it was given."""
        return (self.folder / "taken.pdf").read_bytes()


def on_path(folder: Path, monkeypatch: pytest.MonkeyPatch) -> FakeService:
    """A print service with the printers bench and office, both ready, in place of this machine's, and its clock."""
    made = FakeService(folder / "bin")
    put_on_path(monkeypatch, made.folder)
    monkeypatch.setattr(print_queue, "monotonic", made.clock)
    return made


def put_on_path(monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    """The fake programs, and of the system only what they stand on: no print service of this machine is asked."""
    plain = folder / "plain"
    plain.mkdir()
    for name in ("sh", "sleep", "cp", "cat", "dirname", "printf"):
        found = next((Path(one) / name for one in os.defpath.split(":") if (Path(one) / name).exists()), None)
        if found:
            (plain / name).symlink_to(found)
    monkeypatch.setenv("PATH", f"{folder}:{plain}")
