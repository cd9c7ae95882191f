"""The PIN by command: of whoever has one on this tablet, from a prompt or a file that an option names."""

from __future__ import annotations

import sys
from getpass import getpass
from pathlib import Path

from teardown_app.records.home import Home
from teardown_app.records.pins import PinFault, Pins
from teardown_app.workflows.act import refuse

LONGEST = 100
"""Characters of the file that are looked at."""


def check_pin(home: Home, code: str, file: Path | None) -> None:
    """Refuses without the right PIN; who has none on this tablet is not asked for one."""
    pins = Pins(home.disk, home.path)
    if not pins.known(code):
        return
    try:
        pins.check(code, _given(code, file))
    except PinFault as fault:
        refuse(fault.wrong, fault.instead)


def _given(code: str, file: Path | None) -> str:
    if file is not None:
        with file.open(encoding="utf-8", errors="replace") as opened:
            return opened.read(LONGEST).strip()
    if not sys.stdin.isatty():
        refuse(
            f"{code} has a PIN on this tablet, and this act asks for it.", "Name the file it is in: --pin-file FILE."
        )
    return getpass(f"PIN of {code}: ").strip()
