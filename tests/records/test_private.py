"""`private/` is its owner's alone, and PINs that are gone are said."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from teardown_app.domain.ledger.record import SHOP, Draft
from teardown_app.records.clock import MachineClock
from teardown_app.records.disk import RealDisk
from teardown_app.records.home import Home
from teardown_app.records.pins import Pins
from teardown_app.workshop import assets_folder, open_workshop


def mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


@pytest.mark.skipif(os.name == "nt", reason="there are no such bits")
@pytest.mark.parametrize("before", [None, 0o755, 0o777])
def test_private_is_readable_by_its_owner_alone(tmp_path: Path, before: int | None) -> None:
    """Made so, and put right where it was open, whatever the umask."""
    if before is not None:
        (tmp_path / "private").mkdir()
        (tmp_path / "private").chmod(before)
    old = os.umask(0)
    try:
        with Home(tmp_path, MachineClock()).open() as home:
            Pins(home.disk, tmp_path).enrol("MK", "314159")
            assert mode(tmp_path / "private") == 0o700 and home.troubles == []
    finally:
        os.umask(old)


def test_a_disk_that_knows_no_owners_is_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A stick formatted for cameras: everybody reads everything."""
    monkeypatch.setattr(RealDisk, "owner_only", lambda *_: False)
    with Home(tmp_path, MachineClock()).open() as home:
        assert ["others who use this machine" in one.message for one in home.troubles] == [True]


def with_pins(folder: Path) -> None:
    """MK is the first person and chose a PIN here."""
    workshop = open_workshop(folder, assets_folder(), writes=True)
    body = {"code": "MK", "rights": ["record", "office"]}
    given = Draft(SHOP, "person.given", ("person:MK",), body)
    workshop.record([given, Draft(SHOP, "pin.enrolled", ("person:MK",), {"code": "MK", "why": "first"})], "MK")
    Pins(workshop.home.disk, folder).enrol("MK", "314159")
    workshop.close()


def test_a_pin_file_that_is_gone_is_said(tmp_path: Path) -> None:
    with_pins(tmp_path)
    workshop = open_workshop(tmp_path, assets_folder(), writes=True)
    assert workshop.home.troubles == []
    workshop.close()
    (tmp_path / "private" / "pins.json").unlink()
    workshop = open_workshop(tmp_path, assets_folder(), writes=True)
    assert ["PINs of this tablet are gone: MK" in one.message for one in workshop.home.troubles] == [True]
    workshop.close()


def test_a_start_from_a_backup_misses_no_pins(tmp_path: Path) -> None:
    """PINs are never in one, and that was said when it was made."""
    from teardown_app.records import backup

    with_pins(tmp_path / "data")
    backup.make(tmp_path / "data", tmp_path / "copy", "2026-03-14T09:30:00+01:00")
    workshop = open_workshop(tmp_path / "copy", assets_folder(), writes=True)
    assert not [one for one in workshop.home.troubles if "PIN" in one.message]
    workshop.close()
