"""A short piece of bench work on any disk, which says what was confirmed, and what must hold afterwards."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from teardown_app.domain.ledger.record import Draft, Record
from teardown_app.records.clock import TrialClock
from teardown_app.records.disk import Disk
from teardown_app.records.home import Home

FOLDER = Path("/shop/data")
START = "2026-03-14T09:30:00+01:00"


class NoLock:
    """Lock of a disk that only this program sees."""

    def take(self) -> None: ...

    def give_back(self) -> None: ...


def opened(disk: Disk) -> Home:
    """The data folder on this disk, open for writing."""
    return Home(FOLDER, TrialClock(datetime.fromisoformat(START)), disk, NoLock()).open()


class Confirmed:
    """What a person was told is recorded."""

    def __init__(self) -> None:
        self.records: list[Record] = []
        self.pictures: dict[str, bytes] = {}


def work(disk: Disk, confirmed: Confirmed, rounds: int = 3) -> None:
    """Take parts off, with a picture each, and issue numbers in the shop's file in the same act."""
    home = opened(disk)
    for n in range(rounds):
        picture = f"picture {n}".encode()
        digest = home.attach(picture, "jpg")
        confirmed.pictures[digest] = picture
        act = [
            Draft("J1", "taken_off", ("new:1",), {"photo": digest, "note": "gasket stuck " * 12}),
            Draft("_shop", "numbers_issued", ("new:1",), {"for": "new:0.1"}),
            Draft("J1", "put", ("new:0.1",), {"place": "tray 3"}),
        ]
        confirmed.records += home.append(act, "P1", home.heads("J1"))
        confirmed.records += home.append([Draft("J1", "finding", ("new:0.1",), {})], "P1", home.heads("J1"))


def everything(home: Home) -> list[Record]:
    """All records here."""
    return home.records("J1") + home.records("_shop")


def must_hold(disk: Disk, confirmed: Confirmed) -> None:
    """Whatever was confirmed is there, work goes on, and a further start finds all of it, once."""
    home = opened(disk)
    found = everything(home)
    missing = [record.ref for record in confirmed.records if record not in found]
    assert not missing, f"confirmed, but not there: {missing}; troubles: {home.troubles}"
    for digest, picture in confirmed.pictures.items():
        assert home.attachment(digest) == picture
    new = home.append([Draft("J1", "finding", (), {}), Draft("_shop", "place", (), {})], "P2", {})
    again = opened(disk)
    after = everything(again)
    assert sorted(record.ref for record in after) == sorted(record.ref for record in found + new)
    assert everything(again) == after
    assert not [trouble for trouble in again.troubles if trouble not in home.troubles]
