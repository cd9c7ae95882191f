"""Random worlds: a bill, up to three tablets, people with different rights, and a history of records.

A world is made from whole numbers, one for each step, so that a failing one can be made smaller by
leaving steps out. Nothing here knows what the records should lead to.
"""

from __future__ import annotations

import os
from random import Random, SystemRandom
from typing import Any

from attrs import Factory, define
from hypothesis import strategies as st

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.ledger.record import Record
from tests.open_points import gauges, narrowing_acts
from tests.open_points.acts import ACTS, BILL, Bench, opening
from tests.open_points.at_odds import at_odds
from tests.open_points.bills import random_bill
from tests.open_points.tablets import JOB, OTHER_JOB, SHOP, Clock, Tablet

PEOPLE = {
    "AA": ["record", "release", "scrap", "concede", "sign", "office"],
    "BB": ["record"],
    "CC": ["record", "release", "concede"],
    "DD": [],
    "FF": ["record", "office"],
}


@define
class World:
    """What came to be recorded, in no order of arrival."""

    bill: Bill
    shop: list[Record]
    job: list[Record]
    withheld: list[Record] = Factory(list)
    others: dict[str, list[Record]] = Factory(dict)
    """What was recorded in other jobs that are here."""

    def bills(self, sha: str) -> Bill | None:
        """The one bill that there is."""
        return self.bill if sha == BILL else None


COPIED = 0.005
"""Share of steps in which a second tablet is started from a copy of one: from then on both write the same numbers."""


def build(seed: int, steps: list[int], copied: float = COPIED) -> World:
    """A world from its numbers."""
    rng = Random(seed)
    bill, clock = random_bill(rng), Clock()
    tablets = [Tablet(f"t{n}~0", clock) for n in range(1, rng.choice((2, 3, 3, 4)))]
    _set_up(tablets, rng)
    for step in steps:
        _step(tablets, bill, Random(step), copied)
    if len({each.dev for each in tablets}) < len(tablets):
        _branches_meet(tablets, bill, rng)
    if rng.random() < 0.3:
        _signed_last(tablets, bill, rng)
    return _gathered(bill, tablets, rng)


def _set_up(tablets: list[Tablet], rng: Random) -> None:
    """The first person registers, then the others; the job is opened; most tablets hear of it. On one that does not, or
    before it does, another first person may found a shop of his own."""
    first = tablets[0]
    for code, rights in PEOPLE.items():
        person(first, "AA", code, rights)
    trial = rng.random() < 0.05
    first.write("AA", "job.opened", ("job",), opening(rules=rng.choice((1, 2, 2))), trial=trial)
    for tablet in tablets[1:]:
        if rng.random() < 0.12:
            code = rng.choice(("AA", "GG"))
            person(tablet, code, code, PEOPLE["AA"])
            person(tablet, code, "BB", PEOPLE["CC"])
        if rng.random() < 0.95:
            tablet.sync(first)


def person(tablet: Tablet, by: str, code: str, rights: list[str], **more: Any) -> None:
    """Somebody gets rights, or loses them."""
    body = {"code": code, "rights": rights, **more}
    tablet.write(by, "person.given", (f"person:{code}",), body, journal=SHOP)


def _step(tablets: list[Tablet], bill: Bill, rng: Random, copied: float) -> None:
    tablet = rng.choice(tablets)
    tablet.clock.hours += rng.choice((0.1, 1, 3))
    kind = rng.random()
    if kind < 0.18:
        tablet.sync(rng.choice(tablets), rng.choice(((JOB, SHOP), (JOB, SHOP), (JOB,), (SHOP,))))
    elif kind < 0.22:
        _in_the_shop(tablet, rng)
    elif kind < 0.28:
        gauges.in_the_shop(tablet, rng)
    elif kind < 0.28 + copied and len(tablets) < 4:
        tablets.append(tablet.copied())
    elif kind < 0.29 + copied:
        tablet.clk = rng.choice(("ok", "unset", "jumped"))
    elif kind < 0.33 and len(tablets) > 1:
        at_odds(tablets, bill, rng)
    elif kind < 0.35:
        narrowing_acts.about_tablets(tablet, rng, tablets)
    elif kind < 0.36:
        narrowing_acts.in_the_other_job(tablets[0], rng)
    elif kind < 0.375 and len(tablets) < 4:
        tablets.append(_next_incarnation(tablet, rng))
    elif kind < 0.58:
        act = rng.choices(list(narrowing_acts.ACTS), list(narrowing_acts.ACTS.values()))[0]
        act(narrowing_acts.Hand(tablet, bill, rng))
    else:
        act = rng.choices(list(ACTS), list(ACTS.values()))[0]
        act(Bench(tablet, bill, rng))


def _next_incarnation(tablet: Tablet, rng: Random) -> Tablet:
    """A tablet that was put back: the same device under its next number, with what it had or less."""
    device, _, number = tablet.dev.rpartition("~")
    found = Tablet(f"{device}~{int(number) + 1}", tablet.clock, clk=tablet.clk)
    if rng.random() < 0.8:
        found.sync(tablet)
    return found


def _branches_meet(tablets: list[Tablet], bill: Bill, rng: Random) -> None:
    """Some tablet hears of the others, whose files have branches; then work goes on there, now and then by somebody who
    concedes that a number stands for two records."""
    tablet = rng.choice(tablets)
    for other in rng.sample(tablets, rng.randint(1, len(tablets))):
        tablet.sync(other)
    for _ in range(rng.randrange(4)):
        act = rng.choice((narrowing_acts.Hand.concede_versions, narrowing_acts.Hand.accept, Bench.clear, Bench.correct))
        act(narrowing_acts.Hand(tablet, bill, rng))


def _signed_last(tablets: list[Tablet], bill: Bill, rng: Random) -> None:
    """Somebody signs when nearly all is done; then a gauge is found out, or what was found out is taken back."""
    tablet = rng.choice(tablets)
    for other in tablets:
        tablet.sync(other)
    for _ in range(rng.randrange(3)):
        gauges.in_the_shop(tablet, rng)
    for _ in range(rng.randrange(1, 3)):
        Bench(tablet, bill, rng).sign()
    if rng.random() < 0.5:
        narrowing_acts.Hand(tablet, bill, rng).close_and_sign()
    for _ in range(rng.randrange(3)):
        gauges.in_the_shop(tablet, rng)


def _labels(tablet: Tablet, rng: Random) -> None:
    """Labels on their way to paper, or void: of no job's business, whoever writes it."""
    by, number = rng.choice(tuple(PEOPLE)), "P7K3M0001B"
    typ = rng.choice(("label.queued", "label.sent", "label.printed", "label.dropped", "label.voided"))
    body: dict[str, Any] = {"numbers": [number], "where": "printer", "why": "spoiled", "job": JOB}
    body = {"number": number, "why": "spoiled"} if typ == "label.voided" else body
    tablet.write(by, typ, ("labels",), body, journal=SHOP)


def _in_the_shop(tablet: Tablet, rng: Random) -> None:
    if rng.random() < 0.15:
        _labels(tablet, rng)
        return
    code, by = rng.choice(("BB", "CC", "DD", "EE")), rng.choice(("AA", "AA", "AA", "BB"))
    rights = [each for each in PEOPLE["AA"] if rng.random() < 0.6]
    more = rng.choice(({}, {}, {"revoked": True}, {"until": "2026-03-03"}, {"until": "2027-03-03"}))
    if rng.random() < 0.1:
        by = code
    person(tablet, by, code, rights, **more)


def _gathered(bill: Bill, tablets: list[Tablet], rng: Random) -> World:
    """All records of all tablets; now and then some have not come through yet."""
    journals = (SHOP, JOB, OTHER_JOB)
    every = {each.ref: each for tablet in tablets for name in journals for each in tablet.view(name)}
    lost = set(rng.sample(sorted(every), min(len(every), rng.choice((0, 0, 0, 1, 3)))))
    kept = [each for ref, each in every.items() if ref not in lost]
    shop, job, other = ([each for each in kept if each.job == name] for name in (SHOP, JOB, OTHER_JOB))
    others = {OTHER_JOB: other} if other else {}
    return World(bill, shop, job, [every[ref] for ref in sorted(lost)], others)


FIXED = range(180)
"""Seeds of the worlds that are the same on every day and machine."""


def fixed(seed: int) -> World:
    """One of them."""
    rng = Random(seed)
    return build(seed, [rng.randrange(10**6) for _ in range(rng.randrange(5, 60))])


def fresh_seed() -> int:
    """What the long loops draw their worlds from: another one each time, or the one to be repeated (`WORLDS_SEED`)."""
    given = os.environ.get("WORLDS_SEED", "")
    return int(given) if given else SystemRandom().randrange(10**9)


def worlds(most: int = 60, copied: float = COPIED) -> st.SearchStrategy[World]:
    """Worlds of up to so many steps, most of them long; a failing one is made smaller step by step."""
    number = st.integers(0, 2**32 - 1)
    short, long = st.integers(1, 12), st.integers(25, most)
    steps = st.one_of(short, long, long).flatmap(lambda n: st.lists(number, min_size=n, max_size=n))
    return st.builds(build, number, steps, st.just(copied))
