"""What a record reaches: after each the points kept current are those worked out from nothing."""

from __future__ import annotations

from teardown_app.domain.bill.check import Check
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import MISFIT, TO_ACCEPT
from teardown_app.domain.points.live import all_points
from teardown_app.domain.shop.shop import Shop
from tests.open_points.story import Story, line
from tests.open_points.tablets import JOB, SHOP
from tests.open_points.watched import Watched


def nested() -> Watched:
    """A part in an assembly in an assembly in a unit."""
    return Watched(line("10", "assembly"), line("10.20", "assembly"), line("10.20.5", "assembly"), line("10.20.5.1"))


def test_what_came_with_a_unit_goes_when_another_unit_comes() -> None:
    """While its place is empty only the unit is missing; another unit brings nothing along."""
    story = nested()
    unit = story.off("10")
    story.say("part.fitted", unit, "@10", came_with=["10.20"])
    assert "10.20.5.1" not in story.keys("missing")
    story.say("part.taken_out", unit, "@10")
    assert story.keys("missing") == ["10"]
    other = story.say("part.brought_in", story.first.thing(), origin="new", part_number="PN-10").ent[0]
    fitted = story.say("part.fitted", other, "@10")
    assert "10" in story.keys("fitted over an empty position")
    story.take_back(fitted)
    assert story.keys("missing") == ["10"]


def test_what_was_left_in_a_unit_comes_back_with_it() -> None:
    """The word of the whole assembly holds for what is beneath while the unit is there in which it was said."""
    story = nested()
    unit = story.off("10.20")
    story.say("part.fitted", unit, "@10.20")
    story.say("configuration.received", "@10.20.5", as_="left fitted", why="not opened")
    assert "10.20.5.1" not in story.keys("missing")
    other = story.say("part.brought_in", story.first.thing(), origin="new", part_number="PN-10.20").ent[0]
    story.say("part.taken_out", unit, "@10.20")
    story.say("part.fitted", other, "@10.20")
    assert "10.20" in story.keys("fitted over an empty position")
    story.say("part.taken_out", other, "@10.20")
    story.say("part.fitted", unit, "@10.20")
    assert story.keys("fitted over an empty position") == []


def test_an_acceptance_takes_what_was_taken_back_off_the_ground() -> None:
    """A release rests on a set mark that was wrong; its taking back waits until somebody accepts it."""
    story = Watched(line("10"))
    part = story.ready(story.off("10"))
    story.fit(part, "10")
    noted = story.say("part.noted", part, set_mark="II")
    assert story.keys("not released") == [part]
    back = story.say("record.voided", part, record=noted.ref, why="slip")
    assert story.keys("to be accepted") == [part]
    accepting = {"why": "agreed", "reference": "K-7", "covers": [], "lines": ["10"]}
    story.say("point.conceded", part, key=f"to be accepted|{part}|{back.ref}", **accepting)
    assert story.keys("to be accepted") == []
    assert story.keys("not released") == []


def test_an_accepted_word_reaches_the_protective_reading_beneath() -> None:
    """A heater that is said to be not on this tool: its insulation is due until the office accepts that."""
    insulation = Check("insulation", when=("power on",))
    story = Watched(line("10", "assembly"), line("10.5", checks=("insulation",)), checks=(insulation,))
    word = story.say("configuration.received", "@10", as_="not on this tool", why="no heater")
    assert story.keys("check due") == ["10.5"]
    accepting = {"why": "agreed", "reference": "K-7", "covers": []}
    story.say("point.conceded", "@10", key=f"to be accepted|10|{word.ref}", **accepting)
    assert story.keys("check due") == []


def test_signatures_one_above_the_other_are_stale_and_stand_again_when_signed_again() -> None:
    """A record makes stale what is signed above it, and nothing beside it."""
    story = Watched(
        line("10", "assembly"), line("10.20", "assembly"), line("10.20.5"), line("30", "assembly"), line("30.5")
    )
    part, other = story.ready(story.off("10.20.5")), story.ready(story.off("30.5"))
    for one, key in ((part, "10.20.5"), (other, "30.5")):
        story.fit(one, key)
    for thing in ("@10", "@10.20", "@30", "job", part):
        story.sign(thing)
    assert story.keys("sign again") == []
    story.say("photo.taken", "@10.20.5", photos=[])
    assert story.keys("sign again") == []
    story.say("part.taken_out", part, "@10.20.5")
    assert sorted(story.keys("sign again")) == sorted(["10", "10.20", part, "job"])
    story.fit(part, "10.20.5")
    assert sorted(story.keys("sign again")) == sorted(["10", "10.20", part, "job"])
    story.sign("@10.20")
    assert sorted(story.keys("sign again")) == sorted(["10", part, "job"])
    story.sign("job")
    story.ready(part)
    assert sorted(story.keys("sign again")) == sorted(["10", "10.20", part, "job"])


def test_a_signature_does_not_stand_again_when_what_came_after_is_taken_back() -> None:
    """Nothing that lapsed comes back by itself."""
    story = Watched(line("10", "assembly"), line("10.5"))
    part = story.fit(story.ready(story.off("10.5")), "10.5")
    story.sign("@10")
    out = story.say("part.taken_out", part, "@10.5")
    assert story.keys("sign again") == ["10"]
    story.say("record.voided", "@10.5", record=out.ref, why="slip")
    assert story.keys("sign again") == ["10"]
    story.sign("@10")
    assert story.keys("sign again") == []


def test_what_somebody_fitted_who_had_not_seen_the_signature_lies_in_its_scope() -> None:
    """Nobody knew of the other; whoever has seen both signs again."""
    story = Watched(line("10", "assembly"), line("10.5"), line("10.6"))
    one, other = story.ready(story.off("10.5")), story.ready(story.off("10.6"))
    second = story.second()
    story.sign("@10")
    assert story.keys("sign again") == []
    story.say("part.fitted", one, "@10.5", on=second)
    assert story.keys("sign again") == ["10"]
    story.say("part.fitted", other, "@10.6", on=second)
    story.sign("@10")
    assert story.keys("sign again") == ["10"]
    story.carry()
    story.sign("@10")
    assert story.keys("sign again") == []


def test_a_job_is_closed_while_its_closing_and_signature_stand() -> None:
    """What comes after opens it again; it is closed again without being reopened."""
    story = Watched(line("10"))
    story.fit(story.ready(story.off("10")), "10")
    assert story.live.complete
    assert not story.live.closed
    for word in ("first", "again"):
        story.sign("job")
        story.say("job.closed", "job", note=word)
        assert story.live.closed
        story.say("configuration.received", "@10", as_="received complete")
        assert not story.live.closed


def test_what_changes_every_point_changes_them_back_when_it_is_taken_back() -> None:
    """An option was ordered by mistake: else its place would be asked for though the tool lacks it."""
    story = Watched(line("10"), line("20", option="drain"))
    asked = story.say("job.amended", "job", options=["heater", "drain"], why="ordered")
    assert story.keys("missing") == ["10", "20"]
    story.take_back(asked)
    assert story.keys("missing") == ["10"]
    story.say("job.amended", "job", options=["heater", "drain"], why="ordered after all")
    assert story.keys("missing") == ["10", "20"]


def test_what_nobody_understands_is_taken_back_like_anything_else() -> None:
    """Of a kind from a newer app, and of a known one without what it has to say: the tablet must not stop."""
    story = Watched(line("10"))
    part = story.off("10")
    for strange in (story.say("part.polished", part), story.say("finding.noted", part, word=7)):
        story.say("record.voided", part, record=strange.ref, why="slip")
    assert story.keys("missing") == ["10"]


def test_a_closing_that_is_taken_back_closes_nothing() -> None:
    """The job goes on, and what is open in it is asked for again."""
    story = Watched(line("10"))
    story.fit(story.ready(story.off("10")), "10")
    story.sign("job")
    closing = story.say("job.closed", "job")
    assert story.live.closed
    story.take_back(closing)
    assert not story.live.closed


def test_two_ends_that_differ_leave_the_job_open() -> None:
    """One tablet closes, another reopens what it saw closed before; that is no point."""
    story = Watched(line("10"))
    story.fit(story.ready(story.off("10")), "10")
    story.sign("job")
    story.say("job.closed", "job")
    second = story.second()
    story.say("job.reopened", "job", why="returned", on=second)
    assert not story.live.closed
    story.sign("job")
    story.say("job.closed", "job")
    assert not story.live.closed
    assert story.keys("two different entries") == []


def test_what_spoke_of_a_part_does_not_fit_once_the_part_is_taken_back() -> None:
    """What else was taken back in between changes nothing of that."""
    story = Watched(line("10"), line("20"))
    part, other = story.off("10"), story.off("20")
    story.ready(part)
    put = story.say("thing.put", part, place="RACK 1")
    story.say("record.voided", part, record=put.ref, why="slip")
    assert story.keys(MISFIT) == []
    story.take_back(part)
    assert len(story.keys(MISFIT)) == len(("disposition.given", "part.released"))
    story.ready(other)
    assert len(story.keys(MISFIT)) == len(("disposition.given", "part.released"))


def test_what_was_found_on_a_part_does_not_fit_once_that_is_taken_back() -> None:
    """The customer's answer speaks of a finding that nobody noted."""
    story = Watched(line("10"))
    part = story.off("10")
    noted = story.say("finding.noted", part, word="scored", cause="wear", covered=False)
    story.say("approval.given", noted.thing(), as_="approved", reference="K-7")
    assert story.keys(MISFIT) == []
    story.take_back(noted, reference="NC-1")
    assert len(story.keys(MISFIT)) == 1


def test_what_was_taken_back_is_recorded_again_also_at_a_place_that_is_not_of_this_job() -> None:
    """A part is taken off there anew: then nothing is to be accepted."""
    story = Watched(line("10"))
    part = story.off("99")
    story.take_back(part)
    assert story.keys(TO_ACCEPT) == [part]
    story.off("99")
    assert story.keys(TO_ACCEPT) == []


def test_a_place_is_empty_when_its_part_is_in_two_places_no_more() -> None:
    """Another part goes into the second place: the part fitted there before is in neither, as both still say."""
    story = Watched(line("10"), line("20"))
    one, two = story.off("10"), story.off("20")
    other = story.second()
    story.say("part.fitted", one, "@10")
    story.say("part.fitted", one, "@20", on=other)
    assert story.keys("missing") == []
    story.first.sync(other)
    story.say("part.fitted", two, "@20")
    assert story.keys("missing") == ["10"]


def test_why_a_concession_lapsed_is_said_alike_in_every_order_of_arrival() -> None:
    """Of several records that its author had not seen the first one is named."""
    story = Story(line("10"))
    other = story.second()
    story.concede("missing|10|")
    late = [
        story.say("configuration.received", "@10", on=other, as_="received complete", why="seen"),
        story.say("part.fitted", story.off("10", on=other), "@10", on=other),
        story.say("part.taken_out", other.own(JOB)[-1].ent[0], "@10", on=other),
    ]
    said = set()
    for n in range(len(late)):
        shop = Shop()
        shop.take_all(story.records(SHOP))
        job = Job(JOB, shop, story.bills)
        for record in [*story.first.own(JOB), *other.own(JOB)[:2], *late[n:], *late[:n]]:
            job.take(record)
        said.add(next(one.wrong for one in all_points(job) if one.kind == "missing"))
    assert len(said) == 1 and "AA received complete since" in said.pop()
