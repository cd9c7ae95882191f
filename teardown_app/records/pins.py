"""PINs of people, on this tablet only: in `private/`, never in a journal, a backup or an exchange.

A PIN has six digits. What is kept is its scrypt value (n = 2^15, r = 8, p = 1, 16 bytes of salt; about
60 ms and 32 MiB on the machine it was measured on). After five wrong tries each further one has to wait,
twice as long each time, up to an hour, by the clock that nobody can set; the wait stands on the disk, outlasts a
restart of the app, and begins anew with one of the machine.
"""

from __future__ import annotations

import hashlib
import hmac
import json
import secrets
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

from teardown_app.records.clock import steady_now
from teardown_app.records.disk import Disk, place
from teardown_app.records.trouble import why

FILE = "pins.json"
DIGITS = 6
FREE_TRIES = 5
FIRST_WAIT_S = 30.0
LONGEST_WAIT_S = 3600.0
SCRYPT = {"n": 2**15, "r": 8, "p": 1, "maxmem": 64 * 2**20, "dklen": 32}


class PinFault(Exception):
    """The PIN was not taken: `wrong` says why, `instead` what to do."""

    def __init__(self, wrong: str, instead: str) -> None:
        super().__init__(f"{wrong} {instead}")
        self.wrong = wrong
        self.instead = instead


class Pins:
    """PINs known on this tablet, by the person's code."""

    def __init__(self, disk: Disk, home: Path, clock: Callable[[], tuple[float, str]] = steady_now) -> None:
        """`clock` gives steady seconds, and the mark of this start of the machine."""
        self._disk, self._file, self._clock = disk, home / "private" / FILE, clock
        self._rows: dict[str, dict[str, Any]] = self._read()
        self.garbled = self._rows.pop("", None) is not None
        self._wait_anew()

    def _wait_anew(self) -> None:
        """After a start of the machine a wait that was running begins again: how long it was off nobody knows."""
        now, boot = self._clock()
        running = [row for row in self._rows.values() if row.get("boot") != boot and _wait(int(row["wrong"]))]
        for row in running:
            row["until"], row["boot"] = now + _wait(int(row["wrong"])), boot
        if running:
            with suppress(PinFault):  # a disk that takes nothing: it begins again with the next start of the app
                self._keep()

    def _read(self) -> dict[str, dict[str, Any]]:
        """What is kept; `""` stands for a file that cannot be read: nobody has a PIN then."""
        if not self._disk.exists(self._file):
            return {}
        try:
            rows = json.loads(self._disk.read(self._file))
            return {code: row for code, row in rows.items() if bytes.fromhex(row["salt"]) and row["hash"]}
        except (OSError, ValueError, KeyError, TypeError, AttributeError):
            return {"": {}}

    def known(self, code: str) -> bool:
        """True when the person has a PIN on this tablet."""
        return code in self._rows

    def enrol(self, code: str, pin: str) -> None:
        """Keeps a PIN for a person. Raises `PinFault` for what is no PIN."""
        bad = fault_of(pin)
        if bad:
            raise PinFault(bad, f"Take {DIGITS} digits that are not all alike or in a row.")
        salt = secrets.token_bytes(16)
        before = self._rows.get(code)
        self._rows[code] = {"salt": salt.hex(), "hash": _hash(pin, salt).hex(), "wrong": 0, "until": 0.0, "boot": ""}
        try:
            self._keep()
        except PinFault:
            self._rows.pop(code)
            if before is not None:
                self._rows[code] = before
            raise

    def waits(self, code: str) -> float:
        """Seconds until the next try is looked at."""
        row = self._rows.get(code)
        if row is None:
            return 0.0
        left = float(row["until"]) - self._clock()[0]
        return max(0.0, min(left, _wait(int(row["wrong"]))))

    def check(self, code: str, pin: str) -> None:
        """Raises `PinFault` unless this is the person's PIN. The try is on the disk before it is answered."""
        row = self._rows.get(code)
        if row is None:
            raise PinFault(f"{code} has no PIN on this tablet.", "Choose one first.")
        left = self.waits(code)
        if left > 0:
            raise PinFault(f"Too many wrong PINs for {code}.", f"Wait {_span(left)}, then try again.")
        row["wrong"] = int(row["wrong"]) + 1
        now, row["boot"] = self._clock()
        row["until"] = now + _wait(row["wrong"])
        self._keep()
        if not hmac.compare_digest(_hash(pin, bytes.fromhex(row["salt"])).hex(), str(row["hash"])):
            left = _wait(row["wrong"])
            raise PinFault("That is not the PIN.", f"Wait {_span(left)}, then try again." if left else "Try again.")
        row["wrong"], row["until"] = 0, 0.0
        self._keep()

    def _keep(self) -> None:
        try:
            place(self._disk, self._file, json.dumps(self._rows, sort_keys=True).encode())
        except OSError as fault:
            raise PinFault(f"The PIN could not be looked at. {why(fault)}", "What is recorded is safe.") from fault


def fault_of(pin: str) -> str:
    """Why this is no PIN to choose, empty when it is one."""
    if len(pin) != DIGITS or not pin.isdecimal() or not pin.isascii():
        return "That is no PIN."
    return "That PIN is guessed at once." if len(set(pin)) == 1 or pin in "0123456789876543210" else ""


def _wait(wrong: int) -> float:
    over = wrong - FREE_TRIES
    return 0.0 if over < 0 else min(LONGEST_WAIT_S, FIRST_WAIT_S * 2.0 ** min(over, 20))


def _span(seconds: float) -> str:
    return f"{seconds:.0f} s" if seconds < 90 else f"{seconds / 60:.0f} min"


def _hash(pin: str, salt: bytes) -> bytes:
    return hashlib.scrypt(pin.encode(), salt=salt, **SCRYPT)
