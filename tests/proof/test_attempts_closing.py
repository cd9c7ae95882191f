"""Attempts to have a job closed that is not done. Each story says what a shop would have suffered."""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.domain.bill.bill import Check, Limit
from tests.open_points.story import line
from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.proof.implementations import App, Twin
from tests.proof.tale import Tale

GAUGE = "M7K3M0001A"
NOT_HERE = "record not here"


def pump(points: Twin | App) -> tuple[Tale, str]:
    """A tool of one part, which is in; nothing is open."""
    tale = Tale(points, line("10"))
    return tale, tale.fit_ready("10")


def test_closing_needs_a_signature_that_stands(points: Twin | App) -> None:
    """The report would have had no name under it."""
    tale, _ = pump(points)
    tale.say("job.closed", "job", by="SS")
    assert not tale.is_closed()
    tale.sign()
    assert not tale.is_closed(), "signed after closing: what was closed was not signed"
    tale.close()
    assert tale.is_closed()


def test_a_signature_before_the_last_deed_signs_for_less(points: Twin | App) -> None:
    """The inspector would have signed in the morning and the lid come off at noon."""
    tale, part = pump(points)
    tale.sign()
    tale.say("finding.noted", part, by="RR", word="scored", cause="wear", covered=False)
    tale.say("job.closed", "job", by="SS")
    assert not tale.is_closed()
    assert tale.stands("sign again") == ["job"]


def test_who_may_not_sign_closes_nothing(points: Twin | App) -> None:
    """Any helper would have closed the job for the weekend."""
    tale, _ = pump(points)
    tale.close(by="EE")
    assert not tale.is_closed()
    assert len(tale.stands("record by someone without the right")) == 2


def test_a_late_record_of_another_tablet_opens_the_job(points: Twin | App) -> None:
    """The tablet in the test bay would have come back with a reject after the crate was shut."""
    tale, part = pump(points)
    other = tale.second()
    tale.close()
    assert tale.is_closed()
    tale.say("finding.noted", part, by="RR", on=other, word="cracked", cause="fatigue", covered=False)
    assert not tale.is_closed()
    assert tale.subjects("approval waiting") == [part]
    tale.carry()
    tale.say("approval.given", tale.stands("approval waiting")[0].partition("|")[2], by="OO", as_="approved")
    tale.release(part, by="EE")
    tale.close()
    assert tale.is_closed(), "it is closed again without opening it first"


def test_two_who_close_at_once_are_no_trouble(points: Twin | App) -> None:
    """Two inspectors would have had to agree whose closing counts."""
    tale, _ = pump(points)
    other = tale.second()
    tale.close()
    tale.close(on=other)
    assert tale.is_closed()
    assert tale.open_now() == []


def test_a_job_opened_again_is_open_until_it_is_closed_again(points: Twin | App) -> None:
    """The tool that came back from the field would have been closed since last year."""
    tale, _ = pump(points)
    tale.close()
    tale.say("job.reopened", "job", by="OO", why="came back")
    assert (tale.is_closed(), tale.stands("sign again")) == (False, ["job"])
    tale.close()
    assert tale.is_closed()


def test_what_is_not_here_is_not_signed_away(points: Twin | App) -> None:
    """A bench's tablet with its readings would have been left in a drawer."""
    tale, part = pump(points)
    other = tale.second()
    said = tale.say("finding.noted", part, by="RR", on=other, word="cracked", cause="fatigue", covered=False)
    tale.say("photo.taken", part, by="RR", on=other, photos=["0" * 64])
    tale.withheld.add(said.ref)
    assert tale.stands(NOT_HERE) == ["job|t2~0:1"]
    tale.carry()
    tale.concede(f"{NOT_HERE}|job|t2~0:1")
    tale.close()
    assert (tale.stands(NOT_HERE), tale.is_closed()) == (["job|t2~0:1"], False)


def lost(points: Twin | App) -> tuple[Tale, Tablet]:
    """A tablet of which somebody had seen two records fell into the sink after its first."""
    tale, part = pump(points)
    other = tale.second()
    for place in ("RACK 1", "RACK 2"):
        tale.say("thing.put", part, by="RR", on=other, place=place)
    tale.carry()
    tale.say("thing.put", part, by="RR", place="RACK 3")
    tale.withheld.add(other.own(JOB)[1].ref)
    return tale, other


def retire(tale: Tale, last: int, by: str) -> None:
    """Nothing more is to come of the second tablet."""
    body: dict[str, Any] = {"tablet": "t2~0", "journal": JOB, "last": last, "reference": "A-1"}
    tale.first.write(by, "tablet.retired", ("tablet:t2~0",), body, journal=SHOP)


def test_a_lost_tablet_is_retired_by_the_office_alone(points: Twin | App) -> None:
    """A tablet in the sink would have kept the tool in the shop for ever; or anybody would have sunk one."""
    tale, _ = lost(points)
    retire(tale, 1, by="RR")
    assert tale.stands(NOT_HERE) == ["job|t2~0:2"]
    retire(tale, 1, by="OO")
    assert tale.stands(NOT_HERE) == []
    tale.close()
    assert tale.is_closed()


def test_a_retired_tablet_that_turns_up_is_heard(points: Twin | App) -> None:
    """What it had to say would have been left out because it had been given up."""
    tale, other = lost(points)
    retire(tale, 1, by="OO")
    tale.close()
    tale.withheld.clear()
    part = next(each.ent[0] for each in tale.records(JOB) if each.typ == "part.taken_off")
    tale.say("finding.noted", part, by="RR", on=other, word="cracked", cause="fatigue", covered=False)
    assert not tale.is_closed()
    assert tale.subjects("approval waiting") == [part]


def test_a_trial_record_does_nothing_in_a_real_job(points: Twin | App) -> None:
    """A fitting from the demo would have filled a real tool."""
    tale = Tale(points, line("10"))
    part = tale.ready(tale.off("10"))
    tale.first.write("RR", "part.fitted", (part, "@10"), {}, trial=True)
    assert tale.stands("missing") == ["10"]
    assert len(tale.stands("record kept that does not fit")) == 1


@pytest.mark.parametrize("signed_again", [False, True])
def test_a_gauge_found_out_after_closing_is_one_recall(points: Twin | App, signed_again: bool) -> None:
    """The customer would never have been told; and the job would have been torn open for it."""
    bore = Check("bore", when=("finished",), limit=Limit("20.02 mm"))
    tale = Tale(points, line("10", checks=("bore",)), checks=(bore,))
    part = tale.off("10")
    tale.first.write("OO", "instrument.given", (f"instrument:{GAUGE}",), {"number": GAUGE, "reads": "x"}, journal=SHOP)
    tale.read(part, "bore", "accept", when="finished", instrument=GAUGE)
    tale.fit(tale.ready(part), "10")
    tale.close()
    assert tale.is_closed()
    body = {"number": GAUGE, "by": "+0.1 mm", "last_good": "2026-01-01", "why": "dropped"}
    found = tale.first.write("EE", "instrument.found_out", (f"instrument:{GAUGE}",), body, journal=SHOP)
    assert tale.open_now() == [f"recall|job|{found.ref}"]
    if signed_again:
        tale.close()
        assert not tale.is_closed(), "a second signature tells the customer nothing"
    tale.concede(f"recall|job|{found.ref}", by="KK")
    assert tale.is_closed(), "the notice was sent"


# -- signatures of a place


def pump_in_two(points: Twin | App) -> Tale:
    """Two places in one frame; both parts are in."""
    tale = Tale(points, line("10", "assembly"), line("10.10"), line("20"))
    tale.fit_ready("10.10")
    tale.fit_ready("20")
    return tale


def test_a_part_that_was_meant_for_a_signed_place_stays_in_its_scope(points: Twin | App) -> None:
    """A spare's reject, noted after signing, would have gone with the note that it is meant for elsewhere."""
    tale = pump_in_two(points)
    tale.sign(about="@10")
    spare = tale.bring("PN-10.10", by="RR", meant_for="10.10")
    assert tale.subjects("sign again") == ["10"]
    tale.say("finding.noted", spare, by="RR", word="cracked", cause="fatigue", covered=False)
    tale.say("part.noted", spare, by="RR", meant_for="20")
    assert tale.subjects("sign again") == ["10"]


def test_a_part_that_was_said_to_come_out_of_a_signed_place_stays_in_its_scope(points: Twin | App) -> None:
    """A correction of where it came from would have brought the inspector's name back under what he never saw."""
    tale = pump_in_two(points)
    tale.sign(about="@10")
    part = tale.off("10.10")
    tale.say("part.noted", part, by="OO", out_of="20", reference="A-1")
    assert tale.subjects("sign again") == ["10"]
    tale.sign(about="@10")
    assert tale.subjects("sign again") == []


def test_what_was_taken_back_stays_in_the_scope_of_a_place(points: Twin | App) -> None:
    """The part would have been brought in, worked on and un-said, and the signature with it."""
    tale = pump_in_two(points)
    spare = tale.bring("PN-10.10", by="RR", meant_for="10.10")
    tale.sign(about="@10")
    tale.say("finding.noted", spare, by="RR", word="cracked", cause="fatigue", covered=False)
    assert tale.subjects("sign again") == ["10"]
    tale.take_back(spare, reference="NC-1")
    assert tale.subjects("sign again") == ["10"]


def test_a_part_of_another_place_is_in_no_scope_here(points: Twin | App) -> None:
    """Everything would have been signed again for every scratch anywhere."""
    tale = pump_in_two(points)
    tale.sign(about="@10")
    spare = tale.bring("PN-20", by="RR", meant_for="20")
    tale.say("finding.noted", spare, by="RR", word="cracked", cause="fatigue", covered=False)
    assert tale.subjects("sign again") == []


def gauged(points: Twin | App) -> Tale:
    """A motor whose insulation was read with a gauge; its job is closed."""
    megger = Check("insulation", type="insulation", when=("finished",), instrument="megger")
    tale = Tale(points, line("10", checks=("insulation",)), line("20"), checks=(megger,))
    body = {"number": GAUGE, "reads": "megger", "due": "2030-01-01"}
    tale.first.write("OO", "instrument.given", (f"instrument:{GAUGE}",), body, journal=SHOP)
    tale.fit_ready("20")
    part = tale.off("10")
    tale.read(part, "insulation", "accept", when="finished", instrument=GAUGE)
    tale.fit(tale.ready(part), "10")
    tale.close()
    assert tale.is_closed()
    return tale


def found_out(tale: Tale) -> str:
    """The gauge is found out; name of that record."""
    body = {"number": GAUGE, "by": "+50 Mohm", "last_good": "2026-01-01", "why": "dropped"}
    return tale.first.write("EE", "instrument.found_out", (f"instrument:{GAUGE}",), body, journal=SHOP).ref


def test_what_was_read_since_the_closing_is_due_like_any_other(points: Twin | App) -> None:
    """A rewound motor of unknown insulation would have gone out as a recall, the tool still on the bench."""
    tale = gauged(points)
    part = next(each.ent[0] for each in tale.records(JOB) if each.body.get("out_of") == "10")
    tale.out(part, "10", by="RR")
    tale.read(part, "insulation", "accept", when="finished", instrument=GAUGE)
    tale.fit(tale.ready(part), "10")
    found = found_out(tale)
    due = f"check due|{part}|check/insulation//finished"
    assert [each for each in tale.open_now() if each.startswith(("check", "recall"))] == [due, f"recall|job|{found}"]
    tale.concede(f"recall|job|{found}")
    assert due in tale.open_now(), "a notice says nothing of what is on the bench"


def test_a_closing_that_closed_nothing_makes_no_recall(points: Twin | App) -> None:
    """The same, after somebody had tapped *close* on a job with holes in it."""
    megger = Check("insulation", type="insulation", when=("finished",), instrument="megger")
    tale = Tale(points, line("10", checks=("insulation",)), checks=(megger,))
    tale.close()
    part = tale.off("10")
    tale.read(part, "insulation", "accept", when="finished", instrument=GAUGE)
    tale.fit(tale.ready(part), "10")
    found_out(tale)
    assert tale.subjects("check due") == [part]
    assert tale.stands("recall") == []
