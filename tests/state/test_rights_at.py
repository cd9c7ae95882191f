"""What a person may do at a tablet: what people of its own founding gave, and what counts in the job in hand."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

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
