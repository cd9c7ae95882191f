"""The desk without a window: whole jobs, rights and PINs, taking back, what comes back after a restart."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path

import pytest

from teardown_app.domain.parts import number_of, parts
from teardown_app.domain.points.point import OPEN
from teardown_app.ui.session import IDLE_S, Session
from teardown_app.ui.slow import Stopped
from teardown_app.ui.view import Step
from tests.ui.hands import Hand, answer_all, answer_tag, clear_points, make_good, take_apart
from tests.ui.shop import PIN, DemoDesk, filled_desk, reopened


@pytest.fixture
def desk(tmp_path: Path) -> Iterator[DemoDesk]:
    """A desk on the demo shop."""
    made = filled_desk(tmp_path / "home")
    yield made
    made.slow.close()


@pytest.fixture
def hand(desk: DemoDesk) -> Hand:
    """A hand at it."""
    return Hand(desk)


def at(hand: Hand, job: str, code: str = "MK") -> None:
    """A person works on a job."""
    hand.sign_on(code)
    hand.row(job)
    hand.touch("Work on")


@pytest.mark.slow
def test_a_rinser_dryer_is_worked_through_by_the_screens_own_next_steps(hand: Hand) -> None:
    """Every place of the sample; at the end nothing is open and the job is closed."""
    at(hand, "BRD-25")
    take_apart(hand)
    assert len(parts(hand.desk.job)) == 49
    make_good(hand)
    clear_points(hand)
    hand.touch("Close")
    answer_all(hand)
    assert hand.desk.job.closed and not [one for one in hand.desk.points() if one.state == OPEN]


def test_a_label_that_is_taken_a_foreign_code_and_another_jobs_part_record_nothing(hand: Hand) -> None:
    """Each is said, and what is shown is the part, or nothing new."""
    at(hand, "pump")
    first = next(one for one in iter(lambda: hand.view.main, None) if one)
    while not first.says.startswith(("Tag", "Scan a label")):
        hand.touch(first.says)
        answer_all(hand)
        first = hand.view.main or first
    number = answer_tag(hand.desk)
    hand.scan(number)
    count = len(hand.desk.job.records)
    hand.scan(number)
    assert hand.desk.screen.name == "part"
    hand.scan("4006381333931")
    assert "no number of ours" in hand.view.scan.says and hand.view.scan.mark == "reject"
    hand.touch("Jobs")
    hand.row("BRD-25")
    hand.touch("Work on")
    hand.scan(number)
    assert "belongs to job" in hand.view.scan.says
    assert len(hand.desk.job.records) == count


def test_release_asks_the_pin_each_time_and_a_wrong_one_releases_nothing(hand: Hand) -> None:
    """AS may release, with the PIN; it counts for one release."""
    at(hand, "pump", "AS")
    take_apart(hand)
    part = parts(hand.desk.job)[0]
    hand.scan(number_of(hand.desk.job, part))
    for _ in range(30):
        main = hand.view.main
        assert main
        if main.says.startswith("Release"):
            break
        hand.touch(main.says)
        answer_all(hand)
    hand.touch("Release")
    field = hand.view.field
    assert field and field.kind == "pin"
    before = len(hand.desk.job.records)
    hand.enter("271828")
    assert "not the PIN" in hand.view.scan.says and len(hand.desk.job.records) == before
    hand.enter(PIN)
    assert len(hand.desk.job.records) == before + 1
    assert hand.view.strip.step
    released = [one for one in hand.desk.job.records.values() if one.typ == "part.released"]
    assert [one.act for one in released] == ["AS"]


def test_who_has_no_right_is_refused_by_the_record_of_rights(hand: Hand) -> None:
    """TB only records: no scrap, no release, no concession."""
    at(hand, "pump", "TB")
    take_apart(hand)
    hand.scan(number_of(hand.desk.job, parts(hand.desk.job)[0]))
    hand.touch("Say what happens")
    for text in ("scrap", "worn out", PIN):
        hand.enter(text)
    assert "no right to scrap" in hand.view.scan.says
    assert not [one for one in hand.desk.job.records.values() if one.typ == "disposition.given"]


def test_after_ten_minutes_the_next_record_asks_who(hand: Hand) -> None:
    """What was being entered is recorded by whoever says so."""
    now = [0.0]
    hand.desk.session = Session(hand.desk.session.pins, lambda: now[0])
    at(hand, "pump")
    now[0] += IDLE_S + 1
    main = hand.view.main
    assert main
    hand.touch(main.says)
    if hand.view.field and hand.view.field.name == "found":
        hand.enter(hand.view.field.choices[0])
    else:
        hand.scan(answer_tag(hand.desk))
    field = hand.view.field
    assert field and "ten minutes" in field.asks
    hand.enter("TB")
    while hand.view.field is not None:
        hand.enter(PIN)
    last = [one for one in hand.desk.job.records.values() if one.typ != "job.opened"]
    assert [one.act for one in last] == ["TB"]


def test_the_person_is_changed_in_two_touches_once_signed_on(hand: Hand) -> None:
    """The initials on the scan line, then the other initials."""
    at(hand, "pump", "TB")
    hand.sign_on("AS")
    before = hand.gestures
    hand.who()
    hand.enter("TB")
    assert hand.desk.session.current == "TB" and hand.gestures == before + 2


def test_a_pin_chosen_here_is_a_record_the_office_sees_and_nothing_of_it_is_in_any_journal(hand: Hand) -> None:
    """The person, the tablet, the day; never the PIN or its hash."""
    hand.sign_on("TB")
    home = hand.desk.workshop.home
    enrolled = [one for one in home.records("_shop") if one.typ == "pin.enrolled"]
    assert [(one.act, one.body["code"]) for one in enrolled] == [("TB", "TB")]
    kept = json.loads((home.path / "private" / "pins.json").read_bytes())["TB"]["hash"]
    for file in home.path.rglob("*"):
        if file.is_file() and "private" not in file.relative_to(home.path).parts:
            data = file.read_bytes()
            assert PIN.encode() not in data and kept.encode() not in data, file
    hand.touch("Office")
    hand.touch("People")
    assert any("TB chose a PIN" in fact.says for fact in hand.view.card.facts)


def test_every_kind_of_entry_is_taken_back_from_the_strip(hand: Hand) -> None:
    """After taking back, the open points are what they were before."""
    at(hand, "pump")
    for _ in range(6):
        before = [(one.key, one.state) for one in hand.desk.points()]
        main = hand.view.main
        assert main
        hand.touch(main.says)
        if hand.view.field and hand.view.field.kind == "tag":
            hand.scan(answer_tag(hand.desk))
        answer_all(hand)
        hand.take_back()
        assert hand.view.strip.says.startswith("Taken back")
        assert [(one.key, one.state) for one in hand.desk.points()] == before
        hand.touch("Teardown")
        main = hand.view.main
        assert main
        hand.touch(main.says)
        answer_all(hand)


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


def test_search_finds_by_number_position_and_words_in_two_gestures(hand: Hand) -> None:
    """One to open the search, one to say what; a position and a number go straight there."""
    at(hand, "pump")
    take_apart(hand)
    part = parts(hand.desk.job)[3]
    number, key = number_of(hand.desk.job, part), hand.desk.job.value(part, "out_of")
    for words in (number, number.lower(), key):
        hand.desk.touch(Step("Search", "search"))
        hand.enter(words)
        assert hand.desk.screen.name == "part" and hand.desk.screen.state["part"] == part
    hand.desk.touch(Step("Search", "search"))
    hand.enter("valve")
    assert hand.desk.screen.name == "found" and all("VALVE" in row.text.upper() for row in hand.view.rows)


def test_a_broken_bill_opens_no_job_and_a_good_one_does(hand: Hand, tmp_path: Path) -> None:
    """The faults are said with file and row; the work is done off the screen's thread."""
    from shutil import copytree

    samples = Path(__file__).parents[2] / "sample_bills"
    for name in ("faulty", "kbw-60"):
        copytree(samples / name, hand.desk.workshop.home.path / "bills" / name)
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("Job from a bill")
    jobs = len(hand.desk.workshop.home.jobs())
    for name, wanted in (("faulty", jobs), ("kbw-60", jobs + 1)):
        hand.row(name)
        for text in ("PO-9001", f"S-{name}", "", ""):
            field = hand.view.field
            assert field
            hand.desk.entered(field.name, text)
        assert hand.view.busy.startswith("Checking the bill") and hand.view.main == Step("Stop", "stop_slow")
        for _ in range(4000):
            hand.desk.tick()
            if not hand.desk.slow.says:
                break
            hand.desk.slow._under_way[0].exception(timeout=60)  # type: ignore[index]
        assert len(hand.desk.workshop.home.jobs()) == wanted, hand.view.scan.says
        if name == "faulty":
            assert "faults" in hand.view.scan.says and "row" in hand.view.scan.says
            hand.touch("Office")
            hand.touch("Job from a bill")


def test_slow_work_can_be_stopped(hand: Hand) -> None:
    """Nothing comes of it."""
    from threading import Event

    held, came = Event(), []

    def work(report: object) -> int:
        held.wait(10)
        report("half")  # type: ignore[operator]
        return 1

    hand.desk.slow.start("Working:", work, came.append)
    future = hand.desk.slow._under_way[0]  # type: ignore[index]
    hand.desk.stop_slow()
    held.set()
    with pytest.raises(Stopped):
        future.result(10)
    hand.desk.tick()
    assert came == [] and not hand.view.busy


def test_a_one_person_job_shows_only_what_it_needs(hand: Hand) -> None:
    """No office and no cleaning tab where the bill has no routes."""
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("This tablet")
    hand.row("one person")
    assert "Office" in [one.says for one in hand.view.tabs], "the page that is open stays reachable"
    hand.touch("Jobs")
    assert [one.says for one in hand.view.tabs] == ["Jobs", "Teardown", "Assembly", "Open points"]


def idle_act(hand: Hand, now: list[float]) -> None:
    """MK enters something after ten idle minutes and is asked who it is."""
    hand.desk.session = Session(hand.desk.session.pins, lambda: now[0])
    at(hand, "BRD-25")
    now[0] += IDLE_S + 1
    hand.touch("Count")
    hand.enter("1")
    field = hand.view.field
    assert field and "Who is it" in field.asks


def test_what_waits_for_a_name_is_given_up_with_the_screen(hand: Hand) -> None:
    """It is never recorded by the next person, and never in another job."""
    now = [0.0]
    idle_act(hand, now)
    hand.desk.touch(Step("Jobs", "go", ("jobs",)))
    hand.row("pump")
    hand.desk.touch(Step("Sign off", "sign_off"))
    hand.touch("CR")
    while hand.view.field is not None:
        hand.enter(PIN)
    for job in hand.desk.workshop.home.jobs():
        assert {one.typ for one in hand.desk.workshop.job(job).job.records.values()} == {"job.opened"}


def test_leaving_the_question_who_asks_the_last_thing_again(hand: Hand) -> None:
    """Nothing is recorded, nothing entered is lost but the last thing."""
    idle_act(hand, [0.0])
    hand.touch("Cancel")
    field = hand.view.field
    assert field and field.name == "found" and len(hand.desk.job.records) == 1


def test_a_pin_counts_only_for_what_it_was_asked_for(hand: Hand) -> None:
    """Not after a sign-on, and not after the act was refused."""
    at(hand, "pump")
    for _ in range(2):
        hand.desk.open("close")
        field = hand.view.field
        assert field and field.kind == "pin", "the sign-on or the refused act before confirmed nothing"
        hand.enter(PIN)
        assert "open points" in hand.view.scan.says


def test_back_from_another_jobs_part_leads_back_to_the_job(hand: Hand) -> None:
    """The next touch is in the job that the bench shows."""
    at(hand, "pump")
    take_apart(hand)
    pump, number = hand.desk.job_number, number_of(hand.desk.job, parts(hand.desk.job)[0])
    hand.touch("Jobs")
    hand.row("BRD-25")
    hand.touch("Work on")
    dryer = hand.desk.job_number
    hand.scan(number)
    assert (hand.desk.job_number, hand.desk.screen.name) == (pump, "part")
    hand.touch("Back")
    assert (hand.desk.job_number, hand.desk.screen.name) == (dryer, "teardown")


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


@pytest.mark.parametrize("text", ["", "   ", "²", "9" * 5000, "-1", "1e3", "abc"])
def test_nonsense_is_no_count(hand: Hand, text: str) -> None:
    """It is refused in words, and the field asks again."""
    at(hand, "BRD-25")
    hand.touch("Count")
    hand.enter(text)
    field = hand.view.field
    assert field and field.name == "found" and hand.view.scan.mark == "reject"
    assert len(hand.desk.job.records) == 1


def test_the_last_office_right_is_not_given_away(hand: Hand) -> None:
    """Nobody could give rights any more."""
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("People")
    hand.row("MK")
    hand.enter("nothing any more")
    assert "last one" in hand.view.scan.says
    assert "office" in hand.desk.workshop.shop.people()["MK"]["rights"]


def test_screws_are_counted_into_a_labelled_bag(hand: Hand) -> None:
    """The bag's label is scanned where the screws are in hand."""
    at(hand, "BRD-25")
    numbers, draft = hand.desk.workshop.new_numbers("H", 1)
    hand.desk.workshop.record([draft], "MK")
    hand.scan(numbers[0])
    hand.enter("1")
    counted = [one for one in hand.desk.job.records.values() if one.typ == "hardware.counted"]
    assert [(one.body["found"], one.body["bag"]) for one in counted] == [(1, numbers[0])]


def test_the_office_registers_and_takes_back(hand: Hand) -> None:
    """A place, a person's rights; what stood before stands again."""
    hand.sign_on("MK")
    shop = hand.desk.workshop.shop
    hand.touch("Office")
    hand.touch("Places")
    hand.touch("Register a place")
    hand.enter("RACK 9")
    assert shop.place("RACK 9")
    hand.take_back()
    assert shop.place("RACK 9") is None
    hand.touch("People")
    hand.row("TB")
    hand.enter("bench lead")
    hand.enter("")
    assert "scrap" in shop.people()["TB"]["rights"]
    hand.take_back()
    assert shop.people()["TB"]["rights"] == ["record"]
    hand.touch("Register a person")
    hand.enter("nn")
    hand.enter("record")
    hand.enter("")
    assert shop.people()["NN"]["rights"] == ["record"]
    hand.take_back()
    assert shop.people()["NN"].get("revoked")


def test_labels_are_written_and_read_back(hand: Hand, tmp_path: Path) -> None:
    """A part tagged without a roll queues its label; the sheet that is written reads as that number."""
    from pypdfium2 import PdfDocument

    from teardown_app.intake.read_codes import read_picture

    at(hand, "pump")
    while not (hand.view.main and hand.view.main.says.startswith(("Tag", "Scan a label"))):
        assert hand.view.main
        hand.touch(hand.view.main.says)
        answer_all(hand)
    key = hand.view.main.says.split()[-1]
    hand.desk.open("take off", **{"key": key, "with": "new", "how": "taken off"})
    (queued,) = hand.desk.labels.waiting()
    hand.touch("Office")
    hand.touch("Labels")
    hand.touch("Write the queued labels")
    hand.enter("a4-40")
    assert hand.desk.labels.waiting() == []
    page = PdfDocument(hand.desk.labels.written)[0]
    page.render(scale=4).to_pil().save(tmp_path / "sheet.png")
    assert {one.text for one in read_picture(tmp_path / "sheet.png")} == {queued[1]}


def test_a_photograph_is_kept_of_all_it_shows_with_its_marks(hand: Hand) -> None:
    """Two things, a ring and an arrow: the picture, and a copy that differs where the marks are."""
    from io import BytesIO

    from PIL import Image

    at(hand, "BRD-25")
    folder = hand.desk.workshop.home.path / "pictures"
    folder.mkdir()
    Image.new("RGB", (800, 600), (90, 90, 90)).save(folder / "a.jpg")
    hand.touch("Photograph")
    hand.desk.mark_photo(0.25, 0.25, -1.0, -1.0)
    hand.desk.mark_photo(0.75, 0.75, 0.5, 0.9)
    hand.touch("Keep it")
    (record,) = [one for one in hand.desk.job.records.values() if one.typ == "photo.taken"]
    home = hand.desk.workshop.home
    plain, marked = (Image.open(BytesIO(home.attachment(one))) for one in record.body["photos"])
    assert plain.size == marked.size == (800, 600)
    far, near = (10, 590), (200 + 36, 150)
    assert abs(plain.getpixel(far)[0] - marked.getpixel(far)[0]) < 12
    strip = [marked.getpixel((x, 150)) for x in range(160, 280)]
    assert any(abs(pixel[0] - 90) > 40 or abs(pixel[1] - 90) > 40 for pixel in strip), near
    assert hand.desk.screen.name == "teardown"
    hand.take_back()
    assert hand.desk.job.value(record.ent[0], "photo") is None


def test_what_others_did_is_new_until_it_was_looked_at(hand: Hand) -> None:
    """TB takes something off; AS sees it once, then it is no news."""
    at(hand, "BRD-25", "TB")
    hand.touch("Count")
    hand.enter("1")
    hand.touch("Jobs")
    hand.sign_on("AS")
    hand.row("BRD-25")
    assert any("counted" in fact.says or "records of others" in fact.says for fact in hand.view.card.facts)
    hand.touch("What is new")
    assert any("TB counted 1" in fact.says for fact in hand.view.card.facts)
    hand.touch("Work on")
    hand.touch("Jobs")
    assert any(fact.says == "nothing" for fact in hand.view.card.facts)


def test_screws_of_several_places_are_counted_in_one_bag(hand: Hand) -> None:
    """One record for all of them; what is proposed is what belongs there together."""
    at(hand, "BRD-25")
    hand.row("10.24")
    hand.touch("In one bag with others")
    field = hand.view.field
    assert field
    other = next(one for one in field.choices if one.startswith("10.90 "))
    hand.enter(other)
    hand.enter("that is all")
    field = hand.view.field
    job = hand.desk.job
    wanted = (job.positions["10.24"].count or 0) + (job.positions["10.90"].count or 0)
    assert field and field.choices == (f"{wanted}, all of them",)
    hand.enter(field.choices[0])
    counted = [one for one in job.records.values() if one.typ == "hardware.counted"]
    assert [(set(one.ent), one.body["found"]) for one in counted] == [({"@10.24", "@10.90"}, wanted)]


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
