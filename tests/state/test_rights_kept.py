"""Rights by person: what makes them be judged again, and what does not."""

from __future__ import annotations

from teardown_app.domain.job.job import Job
from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.record import SHOP, Record
from teardown_app.domain.shop.shop import Shop
from tests.open_points.acts import opening
from tests.open_points.tablets import JOB, Clock, Tablet


def give(tablet: Tablet, by: str, code: str, rights: list[str]) -> Record:
    """Somebody gets rights."""
    return tablet.write(by, "person.given", (f"person:{code}",), {"code": code, "rights": rights}, journal=SHOP)


def issue(tablet: Tablet, by: str = "AA") -> Record:
    """Numbers are issued: nobody's rights."""
    body = {"letter": "P", "letters": "7K3M", "first": 0, "next": 5, "count": 5}
    return tablet.write(by, "numbers.issued", ("numbers:7K3M",), body, journal=SHOP)


def test_a_long_line_of_people_each_named_by_the_one_before() -> None:
    """However long nobody asked: each is judged on those before him. 500 are more than calls may be nested."""
    tablet, shop = Tablet("t1~0", Clock()), Shop()
    codes = [f"P{n}" for n in range(500)]
    records = [give(tablet, "P0", "P0", list(RIGHTS))]
    records += [give(tablet, by, code, list(RIGHTS)) for by, code in zip(codes, codes[1:], strict=False)]
    for record in records:
        shop.take(record)
    assert [shop.effect(record) for record in reversed(records)] == [""] * 500
    assert shop.rights_of("P499", "2026-03-02") == RIGHTS


def test_what_changes_nobodys_rights_is_no_reason_to_judge_again() -> None:
    """Neither in the shop nor in a job; not the next person either, of whom nobody had heard before."""
    tablet, shop = Tablet("t1~0", Clock()), Shop()
    job = Job(JOB, shop, lambda digest: None)
    shop.take(give(tablet, "AA", "AA", list(RIGHTS)))
    job.take(tablet.write("AA", "job.opened", ("job",), opening()))
    were = shop.generation, job.generation
    for record in (issue(tablet), give(tablet, "AA", "BB", ["record"]), issue(tablet)):
        shop.take(record)
        assert not job.shop_took(record)
    assert (shop.generation, job.generation) == were
    noted = tablet.write("BB", "photo.taken", ("job",), {"photos": []})
    job.take(noted)
    assert job.effect(noted) == ""


def test_rights_that_were_known_elsewhere_before_they_came_here() -> None:
    """What its author recorded counts from then on."""
    tablet, shop = Tablet("t1~0", Clock()), Shop()
    job = Job(JOB, shop, lambda digest: None)
    shop.take(give(tablet, "AA", "AA", list(RIGHTS)))
    late = give(tablet, "AA", "BB", ["record"])
    noted = tablet.write("BB", "photo.taken", ("job",), {"photos": []})
    job.take(noted)
    assert job.effect(noted) == "no right"
    shop.take(late)
    assert job.shop_took(late)
    assert job.effect(noted) == ""


def test_a_fork_of_the_shop_beyond_what_was_seen_reaches_back_where_that_is_not_here() -> None:
    """Of a fork whose number is not here nobody is taken to have seen anything: one by one as all at once."""
    tablet, shop = Tablet("t1~0", Clock()), Shop()
    job = Job(JOB, shop, lambda digest: None)
    people = [give(tablet, "AA", "AA", list(RIGHTS)), give(tablet, "AA", "BB", ["record"])]
    issue(tablet)
    noted = tablet.write("BB", "photo.taken", ("job",), {"photos": []})
    issue(tablet)
    twin = tablet.copied()
    here = [*people, tablet.own(SHOP)[-1], issue(tablet), issue(twin, "BB")]
    job.take(noted)
    for record in here:
        assert job.effect(noted) == ("" if len(shop.records) > 1 else "no right")
        shop.take(record)
        job.shop_took(record)
    at_once = replay(here, JOB, [noted], lambda digest: None)
    assert job.effect(noted) == at_once.effect(noted) == "no right"
