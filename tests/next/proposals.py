"""What the next step proposes over a random world, and what of it is refused."""

from __future__ import annotations

from random import Random

from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.next.step import BENCHES, View, last_gate, next_step
from teardown_app.domain.parts.parts import parts
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.points.live import Live
from teardown_app.workflows.act import Act, Refused
from tests.next.hands import HANDS, do
from tests.open_points.tablets import JOB
from tests.open_points.worlds import World, build

NOW = Moment("t1~0", "2026-03-20T08:00:00+01:00", "ok")
"""Weeks after the last record of every world: no wait is open but one whose clock proves nothing."""


def world_of(seed: int) -> World:
    """A world of its own for each seed."""
    rng = Random(seed)
    return build(seed, [rng.randrange(10**6) for _ in range(rng.randrange(5, 60))])


def proposed_and_refused(world: World) -> tuple[list[str], list[str]]:
    """Acts that were proposed for every place and part at every bench, and those that were refused."""
    job = replay(world.shop, JOB, world.job, world.bills)
    live = Live(job)
    view, act = View(live, NOW), Act(job, job.shop, "AA", NOW)
    about = ["", *map(position_thing, job.positions), *parts(job)]
    proposed: list[str] = []
    refused: list[str] = []
    if set(job.shop.rights_of("AA", NOW.wall[:10])) < {"record", "release", "office", "sign"}:
        return proposed, refused
    for bench in ("", *BENCHES):
        for one in about:
            to_do = next_step(view, one, bench, last_gate(live)).to_do
            if to_do is None or to_do.act not in HANDS:
                continue
            proposed.append(to_do.act)
            try:
                do(act, live, to_do)
            except Refused as refusal:
                refused.append(f"{to_do} for {one or 'the tool'}: {refusal}")
    return proposed, refused
