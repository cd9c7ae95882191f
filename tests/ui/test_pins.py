"""PINs: kept as scrypt values in `private/`, growing waits that outlast a restart, nothing of them elsewhere."""

from __future__ import annotations

import hashlib
import json
from pathlib import Path

import pytest

from teardown_app.records.disk import RealDisk
from teardown_app.records.pins import PinFault, Pins


class Hand:
    """A clock that is set by hand."""

    def __init__(self) -> None:
        self.now, self.boot = 1_000.0, "first"

    def __call__(self) -> tuple[float, str]:
        return self.now, self.boot


@pytest.fixture
def home(tmp_path: Path) -> Path:
    """A data folder with its `private/`."""
    (tmp_path / "private").mkdir()
    return tmp_path


def test_scrypt_is_the_standard_one() -> None:
    """RFC 7914, section 12, third test vector: scrypt with n = 16384, r = 8, p = 1."""
    value = hashlib.scrypt(b"pleaseletmein", salt=b"SodiumChloride", n=16384, r=8, p=1, maxmem=64 * 2**20, dklen=64)
    assert value.hex().startswith("7023bdcb3afd7348461c06cd81fd38eb")


def test_what_is_kept_is_scrypt_of_the_pin_with_its_salt(home: Path) -> None:
    """Worked out anew with the library's scrypt from what stands in the file."""
    Pins(RealDisk(), home).enrol("MK", "314159")
    row = json.loads((home / "private" / "pins.json").read_bytes())["MK"]
    salt = bytes.fromhex(row["salt"])
    wanted = hashlib.scrypt(b"314159", salt=salt, n=2**15, r=8, p=1, maxmem=64 * 2**20, dklen=32)
    assert (len(salt), row["hash"]) == (16, wanted.hex())


def test_a_right_pin_is_taken_and_a_wrong_one_is_not(home: Path) -> None:
    """Right, wrong, and a person without one."""
    pins = Pins(RealDisk(), home)
    pins.enrol("MK", "314159")
    pins.check("MK", "314159")
    with pytest.raises(PinFault, match="not the PIN"):
        pins.check("MK", "314158")
    with pytest.raises(PinFault, match="no PIN on this tablet"):
        pins.check("TB", "314159")


@pytest.mark.parametrize("pin", ["", "31415", "3141592", "31415a", "١٢٣٤٥٦", "000000", "123456", "987654"])
def test_what_is_no_pin_is_refused(home: Path, pin: str) -> None:
    """Six ASCII digits, not all alike, not in a row."""
    pins = Pins(RealDisk(), home)
    with pytest.raises(PinFault):
        pins.enrol("MK", pin)
    assert not pins.known("MK")


def _tried_five_times(home: Path, clock: Hand) -> Pins:
    pins = Pins(RealDisk(), home, clock)
    pins.enrol("MK", "314159")
    for _ in range(5):
        with pytest.raises(PinFault):
            pins.check("MK", "271828")
    return pins


def test_after_five_wrong_tries_the_wait_doubles_and_outlasts_a_restart(home: Path) -> None:
    """30 s after the fifth, then 60 s, 120 s; the right PIN is not looked at meanwhile."""
    clock = Hand()
    pins = _tried_five_times(home, clock)
    assert pins.waits("MK") == pytest.approx(30)
    again = Pins(RealDisk(), home, clock)
    with pytest.raises(PinFault, match="Wait 30 s"):
        again.check("MK", "314159")
    clock.now += 31
    with pytest.raises(PinFault, match="Wait 60 s"):
        again.check("MK", "271828")
    clock.now += 61
    again.check("MK", "314159")
    assert again.waits("MK") == 0


def test_the_wall_clock_has_nothing_to_say(home: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Set a year on, or back: the wait is as long as before."""
    pins = Pins(RealDisk(), home)
    pins.enrol("MK", "314159")
    for _ in range(5):
        with pytest.raises(PinFault):
            pins.check("MK", "271828")
    for days in (365, -365):
        monkeypatch.setattr("time.time", lambda days=days: 1_800_000_000.0 + days * 86400)
        assert 29 < Pins(RealDisk(), home).waits("MK") <= 30


def test_with_a_start_of_the_machine_the_wait_begins_anew(home: Path) -> None:
    """Its steady clock begins at nothing; a start of the app alone changes nothing."""
    clock = Hand()
    _tried_five_times(home, clock)
    clock.now += 20
    assert Pins(RealDisk(), home, clock).waits("MK") == pytest.approx(10)
    clock.now, clock.boot = 3.0, "second"
    assert Pins(RealDisk(), home, clock).waits("MK") == pytest.approx(30)
    clock.now += 12
    assert Pins(RealDisk(), home, clock).waits("MK") == pytest.approx(18), "and not with each start of the app"


@pytest.mark.parametrize("garbage", [b"", b"{", b"[1]", b'{"MK": 3}', b'{"MK": {"salt": "zz", "hash": "00"}}'])
def test_a_garbled_file_means_that_nobody_has_a_pin(home: Path, garbage: bytes) -> None:
    """It is said, and choosing one again works."""
    (home / "private" / "pins.json").write_bytes(garbage)
    pins = Pins(RealDisk(), home)
    assert pins.garbled and not pins.known("MK")
    pins.enrol("MK", "314159")
    Pins(RealDisk(), home).check("MK", "314159")
