"""A backup from the tablet while the app is open: to a stick or a folder, with how far it is."""

from __future__ import annotations

from pathlib import Path

import pytest

from teardown_app.records import backup as copying
from teardown_app.ui import sticks as disks
from teardown_app.ui.forms import backup
from teardown_app.ui.sticks import sticks
from tests.ui.hands import Hand, through


def asked(hand: Hand) -> None:
    """Where to is asked."""
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("This tablet")
    hand.touch("Make a backup")


def test_it_goes_to_the_stick_that_is_in(hand: Hand, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """One touch on the stick; work goes on meanwhile, and the copy verifies."""
    stick = tmp_path / "STICK"
    stick.mkdir()
    monkeypatch.setattr(backup, "sticks", lambda: [stick])
    asked(hand)
    field = hand.view.field
    assert field is not None and field.choices[0] == str(stick)
    hand.enter(str(stick))
    assert "Backup:" in hand.view.busy or "copied" in hand.view.scan.says
    through(hand)
    (copy,) = stick.iterdir()
    assert "read back. PINs are not in it" in hand.view.scan.says and str(copy) in hand.view.scan.says
    assert copying.check(copy)[1] == [] and not (copy / "private").exists()
    hand.touch("Places")
    hand.touch("Register a place")
    hand.enter("RACK 9")
    assert hand.desk.workshop.shop.place("RACK 9")


def test_it_says_how_far_it_is(hand: Hand, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """What stands on the screen comes from the copy itself."""
    seen: list[str] = []
    honest = copying.make

    def watched(*given, **more):  # type: ignore[no-untyped-def]
        tell = given[4]

        def told(how_far: str) -> None:
            tell(how_far)
            seen.append(hand.desk.slow.says)

        return honest(*given[:4], told, *given[5:], **more)

    monkeypatch.setattr(copying, "make", watched)
    asked(hand)
    hand.enter(str(tmp_path))
    through(hand)
    assert seen[0].startswith("Backup: copied 1 of ") and seen[-1].startswith("Backup: read back ")


def test_a_folder_that_is_not_there_and_the_data_folder_itself_are_refused(hand: Hand, tmp_path: Path) -> None:
    asked(hand)
    hand.enter(str(tmp_path / "nowhere"))
    assert "There is no folder" in hand.view.scan.says
    hand.enter(str(hand.desk.workshop.home.path))
    through(hand)
    assert "Choose a folder elsewhere" in hand.view.scan.says


def test_sticks_are_the_disks_that_were_put_in(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Below the system's folder for them, or below a person's name there; folders that are no disk are none."""
    for path in ("MK/BLUE", "RED", "MK/no disk"):
        (tmp_path / path).mkdir(parents=True)
    monkeypatch.setattr(disks.os.path, "ismount", lambda path: Path(path).name in ("BLUE", "RED"))
    assert sticks([str(tmp_path), str(tmp_path / "nowhere")]) == [tmp_path / "MK" / "BLUE", tmp_path / "RED"]
