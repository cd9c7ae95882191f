"""What comes back: half-entered forms after a restart, the strip that takes back, lists made anew, a full disk."""

from __future__ import annotations

from pathlib import Path
from threading import Event

import pytest

from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.ui.slow import Stopped
from tests.patience import WHOLE_RUN_S
from tests.ui.hands import Hand, answer_all, answer_tag, at, take_apart
from tests.ui.shop import PIN, DemoDesk, reopened


def do_what_is_next(hand: Hand) -> None:
    """Touches the large button and answers what it asks; a label is scanned."""
    main = hand.view.main
    assert main
    hand.touch(main.says)
    if hand.view.field and hand.view.field.kind == "tag":
        hand.scan(answer_tag(hand.desk))
    answer_all(hand)


def test_every_kind_of_entry_is_taken_back_from_the_strip(hand: Hand) -> None:
    """After taking back, all that was open is open again. New is only what an opening that is taken back leaves until
    somebody accepts that (docs/formats/open-points.md, 1 to 3): the taking back, and what the opening reached."""
    at(hand, "pump")
    for _ in range(6):
        before = {(one.key, one.state) for one in hand.desk.points()}
        do_what_is_next(hand)
        hand.take_back()
        assert hand.view.strip.says.startswith("Taken back")
        after = {(one.key, one.state): one for one in hand.desk.points()}
        assert before <= after.keys()
        new = [one.kind for key, one in after.items() if key not in before]
        assert new.count("to be accepted") == 1
        assert set(new) <= {"to be accepted", "consumable not renewed or expired"}
        hand.touch("Teardown")
        main = hand.view.main
        assert main
        hand.touch(main.says)
        answer_all(hand)


def test_closing_asks_of_each_thing_taken_back_whether_it_is_accepted(hand: Hand) -> None:
    """One question for each, by the name of the place; only then what the signature means."""
    at(hand, "pump")
    do_what_is_next(hand)
    hand.take_back()
    hand.desk.open("close")
    field = hand.view.field
    assert field and field.asks.startswith("BODY, CARTRIDGE 10.50/1.10: MK took back that MK took it off.")
    assert field.choices == ("accept it", "leave it open")
    hand.enter("leave it open")
    field = hand.view.field
    assert field and field.name == "meaning"


def test_a_half_entered_finding_comes_back_after_a_restart(hand: Hand) -> None:
    """The form, the words chosen, what stands on the pad; a PIN never is in the draft."""
    at(hand, "pump")
    take_apart(hand)
    part = parts(hand.desk.job)[0]
    hand.scan(number_of(hand.desk.job, part))
    hand.touch("Finding")
    hand.enter("dent")
    hand.desk.typed("half a wo")
    again = reopened(hand.desk)
    field = again.asking.field()
    assert again.screen.name == "part" and field and field.name == "cause" and field.draft == "half a wo"
    again.entered("cause", "freight")
    field = again.asking.field()
    assert field and "Who is it" in field.asks
    for text in ("MK", PIN):
        asked = again.asking.field()
        assert asked
        again.typed(text)
        assert PIN not in (again.workshop.home.path / "drafts" / "desk.json").read_text()
        again.entered(asked.name, text)
    noted = [one for one in again.job.records.values() if one.typ == "finding.noted"]
    assert [(one.act, one.body["word"], one.body["cause"]) for one in noted] == [("MK", "dent", "freight")]
    again.slow.close()


def test_slow_work_can_be_stopped(hand: Hand) -> None:
    """Nothing comes of it."""
    held, came = Event(), []

    def work(report: object) -> int:
        held.wait(WHOLE_RUN_S)
        report("half")  # type: ignore[operator]
        return 1

    hand.desk.slow.start("Working:", work, came.append)
    future = hand.desk.slow._under_way[0]  # type: ignore[index]
    hand.desk.stop_slow()
    held.set()
    with pytest.raises(Stopped):
        future.result(WHOLE_RUN_S)
    hand.desk.tick()
    assert came == [] and not hand.view.busy


def test_work_that_holds_is_stopped_by_a_person_alone(hand: Hand) -> None:
    """A second piece is refused with a sentence and the first goes through; Stop ends it, and says so to its owner."""
    held, came = Event(), []
    slow = hand.desk.slow

    def hold(says: str) -> None:
        slow.start(says, lambda report: held.wait(WHOLE_RUN_S), came.append, holds=True, stopped=lambda: came.append(0))

    hold("Sending 1 label:")
    hand.desk.asking.attempt(lambda: slow.start("Reading the picture:", lambda report: 2, came.append))
    assert hand.view.scan.says == "Sending 1 label goes on still. Wait until it is through, or touch Stop."
    held.set()
    slow._under_way[0].result(WHOLE_RUN_S)  # type: ignore[index]
    hand.desk.tick()
    assert came == [True]
    slow.start("Reading:", lambda report: 2, came.append)  # what is through holds no more
    hold("Sending 1 label:")
    hand.desk.stop_slow()
    assert came == [True, 0] and not slow.says


def test_a_full_disk_says_so_and_what_is_recorded_stays(hand: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    """Recording, signing on and drafts on a full disk; afterwards all goes on."""
    at(hand, "pump")
    disk = hand.desk.workshop.home.disk

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as patch:
        for name in ("put", "append", "append_for_good"):
            patch.setattr(type(disk), name, full)
        main = hand.view.main
        assert main
        hand.touch(main.says)
        answer_once(hand)
        assert "NOT recorded" in hand.view.scan.says and hand.view.scan.mark == "reject"
        assert len(hand.desk.job.records) == 1
    if hand.view.field:
        answer_once(hand)
    assert len(hand.desk.job.records) == 2


def answer_once(hand: Hand) -> None:
    """Enters the one thing that is asked."""
    field = hand.view.field
    assert field
    if field.kind == "tag":
        hand.scan(answer_tag(hand.desk))
    else:
        hand.enter(field.choices[0])


def without_index(desk: DemoDesk, monkeypatch: pytest.MonkeyPatch) -> DemoDesk:
    """The same shop after its index was deleted, listed one job at a time."""
    from teardown_app.ui import listing

    monkeypatch.setattr(listing, "AT_ONCE", 1)
    home, roll = desk.workshop.home.path, desk.roll
    desk.close()
    (file,) = [one for one in home.rglob("*.json") if one.name.startswith("index") or "lists" in one.name]
    file.unlink()
    return reopened_from(home, roll)


def reopened_from(home: Path, roll: tuple[str, ...]) -> DemoDesk:
    """A desk on a data folder that nobody has open."""
    from teardown_app.ui.table import FORMS, SCREENS
    from teardown_app.workshop import assets_folder, open_workshop

    fresh = DemoDesk(open_workshop(home, assets_folder(), writes=True), SCREENS, FORMS)
    fresh.roll = roll
    return fresh


def test_a_list_that_is_made_anew_says_how_far_it_is(hand: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where the index is missing, the first screen does not wait for all jobs."""
    hand.sign_on("MK")
    assert len(hand.view.rows) == 2
    again = Hand(without_index(hand.desk, monkeypatch))
    again.sign_on("MK")
    assert again.view.busy == "Listing the jobs: 0 of 3" and not again.view.rows
    for done in (1, 2):
        again.desk.tick()
        assert again.view.busy == f"Listing the jobs: {done} of 3"
    again.desk.tick()
    assert not again.view.busy and len(again.view.rows) == 2
    again.desk.close()


def test_making_the_list_anew_can_be_stopped(hand: Hand, monkeypatch: pytest.MonkeyPatch) -> None:
    """What is listed so far stays, and work goes on."""
    hand.sign_on("MK")
    again = Hand(without_index(hand.desk, monkeypatch))
    again.sign_on("MK")
    again.desk.tick()
    again.desk.tick()
    again.touch("Go on without the rest")
    assert not again.view.busy and len(again.view.rows) == 1
    again.desk.row("choose", again.view.rows[0].key)
    again.touch("Work on")
    assert again.desk.screen.name == "teardown"
    again.desk.close()


def test_what_is_half_entered_is_kept_while_it_is_asked_who_it_is(hand: Hand) -> None:
    """The question who it is is not kept, what was being entered beneath it is."""
    at(hand, "BRD-25")
    hand.touch("Count")
    hand.desk.typed("7")
    hand.who()
    hand.desk.typed("31415")
    again = reopened(hand.desk)
    field = again.asking.field()
    assert field and (field.name, field.draft) == ("found", "7")
    assert "31415" not in (again.workshop.home.path / "drafts" / "desk.json").read_text()
    again.close()


@pytest.mark.parametrize("note", [
    b"", b"[]", b'{"screen": 3}', b'{"screen": "part", "job": "JXXXX00000", "state": []}',
    b'{"screen": "teardown", "state": {"at": 5}, '
    b'"entry": {"form": "count", "values": {"key": "no place"}, "order": []}}',
])  # fmt: skip
def test_a_draft_that_is_torn_or_of_another_day_is_no_harm(hand: Hand, note: bytes) -> None:
    """The app opens; what is not understood is left out."""
    at(hand, "BRD-25")
    home, roll, job = hand.desk.workshop.home.path, hand.desk.roll, hand.desk.job_number
    hand.desk.close()
    (home / "drafts" / "desk.json").write_bytes(
        note.replace(b'"screen": "t', b'"job": "%s", "screen": "t' % job.encode())
    )
    again = reopened_from(home, roll)
    again.resume()
    assert again.view().screen
    again.close()
