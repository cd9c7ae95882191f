"""One job from the sign-on to its closing, by three people with real touches; then the journal is read."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

from teardown_app.domain.job.replay import replay
from teardown_app.domain.parts.parts import number_of, parts
from teardown_app.domain.parts.routing import remaining
from teardown_app.domain.points.live import all_points
from teardown_app.records.clock import MachineClock
from teardown_app.records.home import Home
from tests.patience import WHOLE_RUN_S
from tests.ui.glass_hand import GlassHand
from tests.ui.hands import answer_all, clear_points, make_good, take_apart
from tests.ui.profiles import NAME

PROJECT = Path(__file__).parents[3]


def sign_on_as(hand: GlassHand, code: str) -> None:
    """Changes the person at the tablet."""
    hand.sign_on(code)
    assert hand.desk.session.current == code


def clean_by_basket(hand: GlassHand) -> int:
    """The cleaning room: takes all parts at each operation through it; gives how many operations were done."""
    for done in range(40):
        hand.touch("Cleaning")
        if not hand.view.rows:
            return done
        hand.touch("Take all")
        step = next(one for one in (hand.view.main, *hand.view.quiet) if one and one.says.startswith("Done"))
        before = len(hand.desk.job.records)
        hand.touch(step.says)
        answer_all(hand)
        if len(hand.desk.job.records) == before:
            return done
    raise AssertionError("the cleaning never ends")


def test_a_pump_from_the_crate_to_the_closed_job(hand: GlassHand, tmp_path: Path) -> None:
    """Technician, cleaning room, assembler; on the small tablet up to the cleaning room, to save time."""
    sign_on_as(hand, "TB")
    hand.row("pump")
    hand.touch("Work on")
    take_apart(hand)
    job = hand.desk.job
    tagged = [part for part in parts(job) if number_of(job, part)]
    assert len(tagged) == 20
    sign_on_as(hand, "CR")
    for part in tagged[:3]:
        hand.touch("Cleaning")
        if remaining(job, part):
            hand.scan(number_of(job, part))
            assert hand.desk.screen.state["basket"] == [part]
            hand.desk.screen.state["basket"] = []
    clean_by_basket(hand)
    if "portrait" not in NAME:
        sign_on_as(hand, "AS")
        make_good(hand)
        hand.touch("Open points")
        sign_on_as(hand, "MK")
        clear_points(hand)
        hand.touch("Close and sign")
        answer_all(hand)
        assert hand.desk.opened.live.closed
    compare_with_the_journal(hand)


def compare_with_the_journal(hand: GlassHand) -> None:
    """What the journal says by itself is what the screen said: state from nothing, and the command's answer."""
    desk = hand.desk
    home, number = desk.workshop.home.path, desk.job_number
    shown = [(one.key, one.state, one.wrong) for one in desk.points()]
    reader = Home(home, MachineClock()).open_to_read()
    fresh = replay(reader.records("_shop"), number, reader.records(number), desk.workshop.bill)
    assert [(one.key, one.state, one.wrong) for one in all_points(fresh)] == shown
    people = {record.act for record in reader.records(number) if record.typ != "job.opened"}
    assert {"TB", "CR"} <= people
    command = [sys.executable, "-m", "teardown_app", "--home", str(home), "--json", "job", "open-points", number]
    told = subprocess.run(command, capture_output=True, text=True, timeout=WHOLE_RUN_S, cwd=PROJECT)
    rows = json.loads(told.stdout)["points"]
    assert [(row["key"], row["state"], row["wrong"]) for row in rows] == shown
