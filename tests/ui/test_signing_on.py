"""Who it is: PINs for weighty acts, idle tablets, rights, badges, and what waits for a name."""

from __future__ import annotations

import json

from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.ui.session import IDLE_S, Session
from teardown_app.ui.view import Step
from teardown_app.workflows.shop import give_rights
from tests.ui.hands import Hand, answer_all, answer_tag, at, take_apart
from tests.ui.shop import PIN


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
        hand.enter("approved")
        field = hand.view.field
        assert field and field.kind == "pin", "the sign-on or the refused act before confirmed nothing"
        hand.enter(PIN)
        assert "open points" in hand.view.scan.says


def test_the_last_office_right_is_not_given_away(hand: Hand) -> None:
    """Nobody could give rights any more."""
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("People")
    hand.row("MK")
    hand.enter("nothing any more")
    assert "last one" in hand.view.scan.says
    assert "office" in hand.desk.workshop.shop.people()["MK"].rights


def test_a_badge_is_given_by_the_office_and_changes_the_person(hand: Hand) -> None:
    """One scan during the shift; the PIN the first time; a badge of nobody, of somebody else, of one who left."""
    hand.sign_on("MK")
    (badge, other), draft = hand.desk.workshop.new_numbers("W", 2)
    hand.desk.workshop.record([draft], "MK")
    hand.scan(badge)
    assert "nobody's badge" in hand.view.scan.says
    hand.touch("Office")
    hand.touch("People")
    hand.row("TB")
    hand.enter("record")
    hand.scan(badge)
    hand.pin()
    assert hand.desk.workshop.shop.people()["TB"].badge == badge
    hand.row("AS")
    hand.enter("record and release")
    hand.scan(badge)
    assert "is the badge of TB" in hand.view.scan.says
    hand.scan(other)
    hand.pin()
    assert hand.desk.workshop.shop.people()["AS"].badge == other
    hand.take_back()
    hand.pin()
    assert not hand.desk.workshop.shop.people()["AS"].badge
    hand.scan(badge)
    for _ in range(2):
        hand.enter(PIN)
    assert hand.desk.session.current == "TB"
    hand.who()
    hand.enter("MK")
    before = hand.gestures
    hand.scan(badge)
    assert hand.desk.session.current == "TB" and hand.gestures == before + 1
    hand.who()
    hand.enter("MK")
    hand.row("TB")
    hand.enter("nothing any more")
    hand.pin()
    hand.scan(badge)
    assert hand.desk.session.current == "MK" and "nobody's badge" in hand.view.scan.says


def test_rights_given_anew_keep_badge_and_last_day(hand: Hand) -> None:
    """Nothing is lost by changing what somebody may do, nor by taking that back."""
    shop = hand.desk.workshop
    (badge,), draft = shop.new_numbers("W", 1)
    shop.record([draft], "MK")
    shop.record(give_rights(shop.shop_act("MK"), "TB", rights=["record"], until="2031-12-31", badge=badge), "MK")
    before = shop.shop.people()["TB"]
    hand.sign_on("MK")
    hand.touch("Office")
    hand.touch("People")
    hand.row("TB")
    hand.enter("record and release")
    hand.enter("")
    hand.pin()
    now = shop.shop.people()["TB"]
    assert (now.badge, now.until, now.rights) == (badge, "2031-12-31", ["record", "release"])
    hand.take_back()
    hand.pin()
    assert shop.shop.people()["TB"] == before
