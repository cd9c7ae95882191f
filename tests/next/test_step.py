"""The next step over random worlds: no act that is proposed is refused, and following the steps ends."""

from __future__ import annotations

import pytest

from teardown_app.domain.job.replay import replay
from teardown_app.domain.next.step import View, last_gate, next_step
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.points.live import Live
from teardown_app.workflows.act import Act
from tests.next.hands import HANDS, do
from tests.next.proposals import proposed_and_refused, world_of
from tests.open_points.tablets import JOB, Clock, Tablet
from tests.open_points.worlds import World


@pytest.mark.parametrize("part_of", range(4))
def test_no_act_that_is_proposed_is_refused(part_of: int) -> None:
    """Four times thirty worlds, every place and every part of each, at every bench."""
    refused = [said for seed in range(part_of, 120, 4) for said in proposed_and_refused(world_of(seed))[1]]
    assert not refused, "\n".join(refused[:12])


def follow_to_the_end(world: World) -> list[str]:
    """A person with all rights, on a tablet that has everything, does what comes next until nothing does."""
    worker = Tablet("t9~0", Clock(2000.0, 10_000))
    worker.take([*world.shop, *world.job])
    job = replay(world.shop, JOB, world.job, world.bills)
    live, done = Live(job), []
    for _ in range(MOST_STEPS):
        worker.clock.hours += 30  # what rests is over by then
        now = Moment(worker.dev, worker.clock.wall(), "ok")
        to_do = next_step(View(live, now), gate=last_gate(live)).to_do
        if to_do is None or to_do.act not in HANDS:
            return done
        done.append(to_do.act)
        for draft in do(Act(job, job.shop, "AA", now), live, to_do):
            things = tuple(worker.thing() if one == "new:1" else one for one in draft.ent)
            record = worker.write("AA", draft.typ, things, draft.body)
            live.update(record, job.take(record))
    raise AssertionError(f"it goes on for ever: {done[-8:]}")


MOST_STEPS = 600

AT_THE_VERY_END = {"temporary in", "job sign"}
"""What comes when nothing stops the tool from running; the whole jobs worked at the screens do these."""


def test_following_the_steps_ends_and_meets_every_act() -> None:
    """Sixty histories, carried on by the next step alone: it ends, nothing is refused, no act is left untried."""
    met: set[str] = set()
    for seed in range(60):
        world = world_of(seed)
        job = replay(world.shop, JOB, world.job, world.bills)
        able = {"record", "release", "office", "sign"} <= set(job.shop.rights_of("AA", "2026-06-01"))
        wrench = any("torque" in each.body.get("reads", "") for each in world.shop)  # the hands tighten with none
        if able and not wrench and not job.knowing.forked and not job.shop.knowing.forked:
            met |= set(follow_to_the_end(world))
    assert met >= set(HANDS) - AT_THE_VERY_END, set(HANDS) - met
