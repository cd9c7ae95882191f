"""What a person may do at a tablet: what people of its own founding gave, and what counts in the job in hand."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

import pytest

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.shop.shop import Shop
from teardown_app.workflows.act import Act, Refused, ShopAct
from teardown_app.workflows.disposition import judge
from tests.open_points.acts import opening
from tests.open_points.tablets import JOB, Clock, Tablet

DAY = "2026-03-02"
HERE, THERE, NEW = "t1~0", "t9~0", "t5~0"
EVERYTHING = list(RIGHTS)


def give(tablet: Tablet, by: str, code: str, rights: list[str], **more: str) -> Record:
    """Somebody gets rights."""
    body = {"code": code, "rights": rights, **more}
    return tablet.write(by, "person.given", (f"person:{code}",), body, journal=SHOP)


class TwoShops:
    """Here AA founded the shop, RR may record. GG founded one out of the box, and registered RR with all rights."""

    def __init__(self) -> None:
        self.here, self.there = Tablet(HERE, Clock()), Tablet(THERE, Clock())
        give(self.here, "AA", "AA", EVERYTHING)
        give(self.here, "AA", "RR", ["record"])
        self.here.write("AA", "job.opened", ("job",), opening())
        give(self.there, "GG", "GG", EVERYTHING)
        give(self.there, "GG", "RR", EVERYTHING)
        give(self.there, "GG", "SS", EVERYTHING, until="2026-03-01")

    def met(self) -> tuple[Shop, Job]:
        """Shop and job of a tablet that has everything."""
        shop = Shop()
        job = Job(JOB, shop, lambda digest: None)
        shop.take_all([*self.here.own(SHOP), *self.there.own(SHOP)])
        job.take_all(self.here.own(JOB))
        return shop, job


def test_what_a_stranger_says_of_the_same_initials_gives_nobody_rights() -> None:
    """Neither for the shop nor in the job; nor does the stranger himself have any."""
    shop, job = TwoShops().met()
    assert shop.rights_at(HERE, "RR", DAY) == job.rights_at(HERE, "RR", DAY) == ("record",)
    assert shop.rights_at(HERE, "GG", DAY) == job.rights_at(HERE, "GG", DAY) == ()
    assert shop.rights_at(HERE, "AA", DAY) == job.rights_at(HERE, "AA", DAY) == RIGHTS


def test_at_the_strangers_tablet_his_own_people_go_on() -> None:
    """His shop may be joined later, and that reaches back; until then nothing of it counts here."""
    shop, job = TwoShops().met()
    assert shop.rights_at(THERE, "RR", DAY) == job.rights_at(THERE, "RR", DAY) == RIGHTS
    assert shop.rights_at(THERE, "AA", DAY) == job.rights_at(THERE, "AA", DAY) == ()
    assert shop.rights_at(THERE, "SS", DAY) == () and shop.rights_at(THERE, "SS", "2026-03-01") == RIGHTS


def test_a_tablet_that_recorded_nothing_yet_is_of_those_who_know_the_person() -> None:
    """As its first record will say: the person's own founding, else one that gave him rights."""
    shop, job = TwoShops().met()
    assert shop.rights_at(NEW, "AA", DAY) == job.rights_at(NEW, "AA", DAY) == RIGHTS
    assert shop.rights_at(NEW, "GG", DAY) == RIGHTS


def test_who_was_joined_has_his_rights_here() -> None:
    """By the office of this shop; not by the stranger's own word."""
    world = TwoShops()
    founding = world.there.own(SHOP)[0].ref
    said = {"founding": world.here.own(SHOP)[0].ref, "why": "ours"}
    world.there.write("GG", "founding.joined", (f"founding:{said['founding']}",), said, journal=SHOP)
    shop, job = world.met()
    assert shop.rights_at(HERE, "GG", DAY) == job.rights_at(HERE, "GG", DAY) == ()
    world.here.write("AA", "founding.joined", (f"founding:{founding}",), {**said, "founding": founding}, journal=SHOP)
    shop, job = world.met()
    assert shop.rights_at(HERE, "GG", DAY) == job.rights_at(HERE, "GG", DAY) == RIGHTS


def test_what_may_be_done_is_what_the_record_will_be_worth() -> None:
    """On every tablet: who is let through records something that has effect, and who is not would not."""
    world = TwoShops()
    for by in ("AA", "RR", "GG", "ZZ"):
        shop, job = world.met()
        allowed = "office" in job.rights_at(HERE, by, DAY)
        tablet = world.here.copied()
        tablet.files[THERE, SHOP] = world.there.own(SHOP)
        job.take(tablet.write(by, "job.amended", ("job",), {"order": "PO-2", "why": "so"}))
        assert (job.said("order") == "PO-2") == allowed, by


def test_an_act_is_refused_to_who_has_his_rights_from_a_stranger() -> None:
    """At the bench, in the office, and where a milder word needs a graver right."""
    world = TwoShops()
    part = world.here.write("RR", "part.taken_off", (world.here.thing(),), {"number": "P7K3M0001A"}).ent[0]
    world.here.write("AA", "disposition.given", (part,), {"as": "scrap"})
    shop, job = world.met()
    now = Moment(HERE, f"{DAY}T09:00:00+01:00", "ok")
    for by, allowed in (("GG", False), ("AA", True)):
        act = Act(job, shop, by, now)
        office, bench = partial(ShopAct(shop, by, now).needs, "office"), partial(judge, act, [part], as_="use as is")
        assert [_is_refused(one, by) for one in (office, act.working, bench)] == [not allowed] * 3, by


def _is_refused(act: Callable[[], object], by: str) -> bool:
    try:
        act()
    except Refused as why:
        return f"{by} has no right to" in str(why)
    return False


DAYS = {"no end": "", "ended yesterday": "2026-03-01", "ends today": DAY, "ends later": "2026-12-31"}


@pytest.mark.parametrize("until", DAYS.values(), ids=DAYS)
@pytest.mark.parametrize("clk", ["ok", "jumped", "unset"])
@pytest.mark.parametrize("wall", [DAY, "2026-02-01", "2026-12-31", "2027-01-01", "1970-01-01"])
def test_who_is_let_in_has_effect_by_every_clock_in_jobs_and_registers(until: str, clk: str, wall: str) -> None:
    """A clock that jumped, that was set back before the end of a right, that was never set: what is said to be recorded
    counts when it is read again, and what would not count is refused and says why."""
    tablet = Tablet(HERE, Clock())
    give(tablet, "AA", "AA", EVERYTHING)
    give(tablet, "AA", "RR", ["record", "office"], until=until)
    tablet.write("AA", "job.opened", ("job",), opening())
    shop, job = Shop(), None
    shop.take_all(tablet.own(SHOP))
    job = Job(JOB, shop, lambda digest: None)
    job.take_all(tablet.own(JOB))
    now, tablet.clk = Moment(HERE, f"{wall}T09:00:00+01:00", clk), clk
    in_job = not _is_refused(lambda: Act(job, shop, "RR", now).needs("office"), "RR")
    in_shop = not _is_refused(lambda: ShopAct(shop, "RR", now).needs("record"), "RR")
    job.take(tablet.write("RR", "job.amended", ("job",), {"order": "PO-2", "why": "so"}, wall=now.wall))
    shop.take(tablet.write("RR", "place.given", ("place:X",), {"name": "X"}, journal=SHOP, wall=now.wall))
    assert (job.said("order") == "PO-2") == in_job
    assert (shop.place("X") is not None) == in_shop == in_job


def test_a_refusal_for_the_clock_says_so() -> None:
    tablet = Tablet(HERE, Clock())
    give(tablet, "AA", "AA", EVERYTHING)
    give(tablet, "AA", "RR", ["record"], until="2026-12-31")
    shop = Shop()
    shop.take_all(tablet.own(SHOP))
    with pytest.raises(Refused, match="while this tablet's clock is not right") as refusal:
        ShopAct(shop, "RR", Moment(HERE, f"{DAY}T09:00:00+01:00", "jumped")).needs("record")
    assert refusal.value.see == "shop clock"
