"""The PIN by command: asked of whoever has one on this tablet, for what needs more than the right to record."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.cli import pin as prompt
from teardown_app.cli.main import main
from teardown_app.domain.ledger.acts import ROWS, asks_pin
from teardown_app.domain.ledger.record import SHOP, Draft
from teardown_app.records.disk import RealDisk
from teardown_app.records.pins import Pins

RIGHT, WRONG = "314159", "271828"


class Door:
    """Commands on one folder, by OF, who has a PIN on this tablet."""

    def __init__(self, home: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.home, self._out = home, capsys
        self(["shop", "person", "OF", "--by", "OF"])
        Pins(RealDisk(), home).enrol("OF", RIGHT)

    def __call__(self, words: list[str]) -> tuple[int, str]:
        code = main([*words, "--home", str(self.home)])
        return code, self._out.readouterr().err

    def file(self, pin: str) -> list[str]:
        """The option that names a file with a PIN in it."""
        path = self.home.parent / "pin"
        path.write_text(pin + "\n")
        return ["--pin-file", str(path)]


@pytest.fixture
def door(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> Door:
    return Door(tmp_path / "data", capsys)


GIVE = ["shop", "person", "TB", "--right", "record", "--by", "OF"]


def test_rights_are_given_with_the_pin_alone(door: Door) -> None:
    """No file and nobody to ask: refused; a wrong one: refused, and counted; the right one: recorded."""
    assert (door(GIVE)[0], "--pin-file" in door(GIVE)[1]) == (2, True)
    code, err = door([*GIVE, *door.file(WRONG)])
    assert code == 2 and "not the PIN" in err
    assert door([*GIVE, *door.file(RIGHT)])[0] == 0


def test_wrong_ones_wait_as_at_the_glass(door: Door) -> None:
    """After five the right one is not looked at either (`records/pins.py`)."""
    for _ in range(5):
        door([*GIVE, *door.file(WRONG)])
    code, err = door([*GIVE, *door.file(RIGHT)])
    assert code == 2 and "Too many wrong PINs" in err


def test_it_is_asked_for_where_somebody_sits(door: Door, monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[str] = []
    monkeypatch.setattr("sys.stdin.isatty", lambda: True, raising=False)
    monkeypatch.setattr(prompt, "getpass", lambda says: asked.append(says) or RIGHT)
    assert door(GIVE)[0] == 0 and asked == ["PIN of OF: "]


def test_recording_and_who_has_none_are_not_asked(door: Door) -> None:
    """A place needs the right to record alone; TB, who may do office work, never chose a PIN here."""
    assert door(["shop", "place", "RACK 1", "--by", "OF"])[0] == 0
    assert door(["shop", "person", "TB", "--right", "office", "--by", "OF", *door.file(RIGHT)])[0] == 0
    assert door(["shop", "person", "NN", "--right", "record", "--by", "TB"])[0] == 0


def test_every_act_that_needs_more_and_can_clear_asks() -> None:
    """All rows of the table of acts whose right is more than *record*, but opening a job and finding out about an
    instrument, which clear nothing; and none of the others."""
    bodies = {"options amended": {"options": []}, "rules raised": {"rules": 2}, "disposition scrap": {"as": "scrap"}}
    for row in ROWS:
        if row.act == "order, name, serial, due amended" or row.right not in (
            "record", "release", "scrap", "concede", "sign", "office",
        ):  # fmt: skip
            continue
        for typ in row.of:
            draft = Draft(SHOP, typ, (), bodies.get(row.act, {"added": 1, "verdict": "accept"}))
            clears = typ not in ("job.opened", "instrument.found_out")
            assert asks_pin(draft) == (row.right != "record" and clears), (row.act, typ)
