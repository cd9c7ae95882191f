"""Two shops whose records come together, tablets that are lost, trials and newer rules: what counts in a job."""

from __future__ import annotations

from typing import Any

import pytest

from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.record import Record
from tests.open_points.story import EVERYTHING, Story, line
from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.open_points.watched import Watched

NO_RIGHT = "record by someone without the right"
MISFIT = "record kept that does not fit"
NOT_HERE = "record not here"
NEWER = "record from a newer app"


def of_the_shop(tablet: Tablet, by: str, typ: str, /, **body: Any) -> Record:
    """Something is recorded of the shop."""
    return tablet.write(by, typ, ("shop",), body, journal=SHOP)


def founded(story: Story, dev: str = "t9~0", by: str = "GG") -> tuple[Tablet, Record]:
    """Another shop: a first person registers himself on a tablet that has heard of nobody; then it hears of the job."""
    tablet = Tablet(dev, story.first.clock)
    founding = of_the_shop(tablet, by, "person.given", code=by, rights=EVERYTHING)
    story.tablets.append(tablet)
    tablet.sync(story.first)
    return tablet, founding


def join(story: Story, founding: Record, by: str = "AA", on: Tablet | None = None) -> None:
    """The office lets the other shop in."""
    of_the_shop(on or story.first, by, "founding.joined", founding=founding.ref, why="one shop")


def test_what_another_shop_recorded_is_one_point_until_it_is_joined() -> None:
    """Whoever had seen the joining or not: it reaches back."""
    story = Story(line("10"))
    other, founding = founded(story)
    part = story.off("10", on=other, number="P7K3M0001A")
    other.write("GG", "part.noted", (part,), {"condition": "worn"})
    assert story.open(NO_RIGHT) == ["job|t9~0"]
    said = next(point.wrong for point in story.points() if point.kind == NO_RIGHT)
    assert said == "2 records of tablet t9~0 are of a shop that nobody joined."
    assert story.open("tagged but unaccounted for") == []
    join(story, founding)
    assert story.open(NO_RIGHT) == []
    assert story.open("tagged but unaccounted for") == [part]


def test_rights_of_another_shop_say_nothing_in_the_job() -> None:
    """The other shop's AA may everything; the job's AA, of whom the record's author had heard too, may only record."""
    story = Story(line("10"))
    other, _ = founded(story, by="AA")
    of_the_shop(other, "AA", "person.given", code="BB", rights=EVERYTHING)
    story.first.sync(other)
    hold = story.say("hold.placed", story.off("10"), why="look").thing()
    lifted = story.say("hold.lifted", hold, by="BB", why="fine")
    assert story.open(NO_RIGHT) == [f"job|{lifted.ref}"]
    assert len(story.open("hold")) == 1


def test_rights_of_another_shop_say_nothing_when_they_come_in_while_the_job_is_open() -> None:
    """As little as when all is read in at once; else a stranger would lift holds until the tablet is started anew."""
    story = Watched(line("10"))
    stranger = Tablet("t9~0", story.first.clock)
    hold = story.say("hold.placed", story.off("10"), why="look").thing()
    story.heard(of_the_shop(stranger, "BB", "person.given", code="BB", rights=EVERYTHING))
    story.tablets.append(stranger)
    story.first.sync(stranger)
    story.say("hold.lifted", hold, by="BB", why="fine")
    assert story.keys(NO_RIGHT) == ["job"] and len(story.keys("hold")) == 1


def test_an_instrument_of_another_shop_is_as_if_not_there() -> None:
    """What a tablet that does not count found out puts no reading in doubt, until its shop is joined."""
    story = Story(line("10"))
    other, founding = founded(story)
    of_the_shop(other, "GG", "instrument.found_out", number="M1", by="2 %", last_good="2026-01-01", why="dropped")
    job = replay(story.records(SHOP), JOB, story.records(JOB), story.bills)
    assert job.shop.entries("instrument:M1", "found_out") == []
    join(story, founding)
    job = replay(story.records(SHOP), JOB, story.records(JOB), story.bills)
    assert len(job.shop.entries("instrument:M1", "found_out")) == 1


def test_a_joined_shop_hands_nothing_on() -> None:
    """What the joined one joined does not count in the first one's job."""
    story = Story(line("10"))
    other, founding = founded(story)
    third, its_founding = founded(story, "t8~0", "HH")
    join(story, founding)
    other.sync(third)
    join(story, its_founding, by="GG", on=other)
    story.off("10", on=third)
    assert story.open(NO_RIGHT) == ["job|t8~0"]


def test_recorded_again_by_somebody_who_counts_it_is_cleared() -> None:
    """Each of the tablet's records: a part by its label or place, others about the same things."""
    story = Story(line("10"))
    other, _ = founded(story)
    story.off("10", on=other, number="P7K3M0001A")
    other.write("GG", "photo.taken", ("job",), {"photos": ["0" * 64]})
    story.carry()
    story.off("10", number="P7K3M0002C")
    assert story.open(NO_RIGHT) == ["job|t9~0"]
    story.say("photo.taken", "job", photos=["0" * 64])
    assert story.open(NO_RIGHT) == []


def test_a_next_incarnation_belongs_where_the_one_before_did() -> None:
    """It knew both shops at once; its author has rights in the other one."""
    story = Story(line("10"))
    second = story.second()
    story.say("photo.taken", "job", on=second, photos=["0" * 64])
    other, _ = founded(story)
    again = Tablet("t2~1", story.first.clock)
    for tablet in (story.first, second, other):
        again.sync(tablet)
    story.tablets.append(again)
    again.write("GG", "photo.taken", ("job",), {"photos": ["1" * 64]})
    job = replay(story.records(SHOP), JOB, story.records(JOB), story.bills)
    assert job.tablet_counts("t2~1") and not job.tablet_counts("t9~0")
    assert job.effect(again.own(JOB)[0]) == "no right"
    assert story.open(NO_RIGHT) == [f"job|{again.own(JOB)[0].ref}"]


def test_what_has_no_right_is_cleared_by_somebody_who_records_it_knowing_of_it() -> None:
    """The same kind about the same things; before he had seen it, it says nothing of it."""
    story = Story(line("10"))
    part, second = story.off("10"), story.second()
    story.person("BB", [])
    story.say("disposition.given", part, on=second, as_="use as is")
    noted = story.say("disposition.given", part, by="BB", as_="rework")
    story.carry()
    assert story.open(NO_RIGHT) == [f"job|{noted.ref}"]
    story.say("disposition.given", part, as_="rework")
    assert story.open(NO_RIGHT) == []


def test_a_lost_tablet_is_retired_at_its_last_record() -> None:
    """What was seen of it and is not here is not asked for any more, until something above that number arrives."""
    story = Story(line("10"))
    second = story.second()
    for n in range(3):
        story.say("photo.taken", "job", on=second, photos=[str(n) * 64])
    story.carry()
    story.say("photo.taken", "job", photos=["9" * 64])
    records = {each.seq: each.ref for each in second.own(JOB)}
    story.withheld = {records[2], records[3]}
    assert story.open(NOT_HERE) == ["job|t2~0:2"], "records 2 and 3 are one run"
    retired = {"tablet": "t2~0", "journal": JOB, "reference": "stolen"}
    of_the_shop(story.first, "AA", "tablet.retired", last=2, **retired)
    assert story.open(NOT_HERE) == ["job|t2~0:2"]
    of_the_shop(story.first, "AA", "tablet.retired", last=1, **retired)
    assert story.open(NOT_HERE) == []
    story.withheld = {records[2]}
    assert story.open(NOT_HERE) == ["job|t2~0:2"]


def test_what_of_the_shop_is_lost_is_retired_under_its_own_name() -> None:
    """A tablet's journal of the shop is another one than that of the job."""
    story = Story(line("10"))
    second = story.second()
    lost = of_the_shop(second, "AA", "place.given", name="RACK 1")
    story.carry()
    story.say("photo.taken", "job", photos=["0" * 64])
    story.withheld = {lost.ref}
    assert story.open(NOT_HERE) == ["job|_shop/t2~0:1"]
    of_the_shop(story.first, "AA", "tablet.retired", tablet="t2~0", journal=JOB, last=0, reference="stolen")
    assert story.open(NOT_HERE) == ["job|_shop/t2~0:1"]
    of_the_shop(story.first, "AA", "tablet.retired", tablet="t2~0", journal=SHOP, last=0, reference="stolen")
    assert story.open(NOT_HERE) == []


def test_a_trial_record_does_not_fit_in_a_job_that_is_none() -> None:
    """It was made under a clock that was handed in."""
    story = Story(line("10", "hardware"))
    tried = story.first.write("AA", "photo.taken", ("job",), {"photos": ["0" * 64]}, trial=True)
    assert story.open(MISFIT) == [f"job|{tried.ref}"]
    story.say("record.voided", "job", record=tried.ref, why="tried")
    assert story.open(MISFIT) == []


@pytest.mark.parametrize(("rules", "said", "held"), [(1, [], 2), (2, [], 2), (3, [NEWER], 2), (0, [NEWER], 2)])
def test_an_amendment_of_rules_counts_where_its_number_is_known(rules: int, said: list[str], held: int) -> None:
    """A number that is not known here is a record from a newer app; a lower one changes nothing."""
    story = Story(line("10", "hardware"))
    story.say("job.amended", "job", rules=rules, why="asked")
    assert [point.kind for point in story.points() if point.kind == NEWER] == said
    assert replay(story.records(SHOP), JOB, story.records(JOB), story.bills).rules == held


def test_one_version_of_two_is_taken_back_and_then_the_other_is_conceded() -> None:
    """Nobody who knows one branch has seen the other; by whoever wrote on that it is taken back, and accepted."""
    story = Story(line("10", "hardware"))
    twin = story.first.copied()
    story.tablets.append(twin)
    story.say("photo.taken", "job", photos=["0" * 64])
    other = story.say("photo.taken", "job", on=twin, photos=["1" * 64])
    key = "two versions of a record|job|t1~0:2"
    story.concede(key)
    assert key in [point.key for point in story.points() if point.state == "open"]
    story.take_back(other, on=twin, reference="NC-1")
    story.concede(key)
    assert key in story.conceded("two versions of a record")
