"""One later record on a verdict's ground lapses it, one beside it does not; no unaccepted taking back revives it."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.ledger.record import Record
from tests.open_points.story import line, route
from tests.open_points.tablets import JOB
from tests.proof.implementations import App, Twin
from tests.proof.tale import ACCEPTED, Tale, screws

LOOK, LEAK = Check("look", when=("finished",), outlasts=("dry",)), Check("leak", type="leak", when=("fitted",))


class Done(Tale):
    """A unit with a rotor, a ring, and a lid under one screw; a valve beside it; one place conceded. All is done."""

    def __init__(self, points: Twin | App) -> None:
        rows = (
            line("10", "assembly", checks=("leak",)), line("10.10", checks=("look",), routes=("wash",)),
            line("10.20", "consumable", fit_after=("10.10",)), line("10.30", fit_after=("10.20",)),
            screws("10.40", 1, torque=6, holds=("10.30",)), line("20"), line("30"),
        )  # fmt: skip
        super().__init__(points, *rows, checks=(LOOK, LEAK), routes=(route("wash", "rinse"),))
        self.rotor, self.lid, self.valve = self.off("10.10"), self.off("10.30"), self.off("20")
        self.operate(self.rotor, "rinse")
        self.read(self.rotor, "look", "accept", when="finished")
        self.fit(self.ready(self.rotor), "10.10")
        self.say("consumable.renewed", "@10.20", by="RR", as_="renewed")
        self.fit(self.ready(self.lid), "10.30")
        self.screw_in("10.40", 1)
        self.tighten("10.40")
        self.read("@10", "leak", "accept")
        self.fit(self.ready(self.valve), "20")
        self.concede("missing|30|", by="KK")
        self.sign(about="@10")
        assert self.open_now() == []

    def operate(self, part: str, operation: str, number: int = 1) -> Record:
        """An operation is done."""
        return self.say("operation.done", part, by="RR", route="wash", operation=operation, **{"pass": number})

    def out_and_in(self, part: str, key: str) -> None:
        """A part comes out and goes back in."""
        self.out(part, key, by="RR")
        self.say("part.fitted", part, f"@{key}", by="RR")

    def key(self, verdict: str) -> str:
        """The point that stands when a verdict has lapsed."""
        return VERDICTS[verdict].format(rotor=self.rotor)


VERDICTS = {
    "release": "not released|{rotor}|",
    "reading of a part": "check due|{rotor}|check/look//finished",
    "reading at a place": "check due|10|check/leak//fitted",
    "renewal": "consumable not renewed or expired|10.20|",
    "torque": "joint not torqued or due again|10.40|",
    "concession": "missing|30|",
    "signature": "sign again|10|",
}

Act = Callable[[Done], object]

ACTS: dict[str, Act] = {
    "label on the rotor": lambda t: t.say("part.tagged", t.rotor, by="RR", number="P7K3M0001A"),
    "photograph of the rotor": lambda t: t.say("photo.taken", t.rotor, by="RR", photos=["0" * 64]),
    "rotor put away": lambda t: t.say("thing.put", t.rotor, by="RR", place="RACK 1"),
    "condition of the rotor noted": lambda t: t.say("part.noted", t.rotor, by="RR", condition="worn"),
    "rotor is to be reworked": lambda t: t.say("disposition.given", t.rotor, by="RR", as_="rework"),
    "rotor rinsed again": lambda t: t.operate(t.rotor, "rinse", 2),
    "rotor dried": lambda t: t.operate(t.rotor, "dry"),
    "rotor read again, good": lambda t: t.read(t.rotor, "look", "accept", when="finished"),
    "rotor read again, bad": lambda t: t.read(t.rotor, "look", "reject", when="finished"),
    "rotor signed for": lambda t: t.sign(about=t.rotor),
    "rotor out and in": lambda t: t.out_and_in(t.rotor, "10.10"),
    "lid out and in": lambda t: t.out_and_in(t.lid, "10.30"),
    "valve out and in": lambda t: t.out_and_in(t.valve, "20"),
    "valve noted": lambda t: t.say("part.noted", t.valve, by="RR", condition="worn"),
    "valve rinsed": lambda t: t.operate(t.valve, "rinse"),
    "joint opened": lambda t: t.say("joint.opened", "@10.40", by="RR"),
    "screw out and in": lambda t: [t.say("hardware.moved", "@10.40", by="RR", put_in=n) for n in (-1, 1)],
    "ring renewed": lambda t: t.say("consumable.renewed", "@10.20", by="RR", as_="renewed"),
    "joint tightened again": lambda t: t.tighten("10.40"),
    "unit read again, bad": lambda t: t.read("@10", "leak", "reject"),
    "word on the empty place": lambda t: t.word("30", "not on this tool"),
    "options amended": lambda t: t.say("job.amended", "job", options=["heater"], why="asked"),
    "name of the job amended": lambda t: t.say("job.amended", "job", name="A", why="asked"),
    "valve tried in the empty place": lambda t: (t.out(t.valve, "20"), t.fit(t.valve, "30"), t.out(t.valve, "30")),
}  # fmt: skip

LAPSES: dict[str, set[str]] = {
    "release": {
        "condition of the rotor noted", "rotor is to be reworked", "rotor rinsed again", "rotor dried",
        "rotor read again, bad",
    },
    "reading of a part": {"rotor rinsed again", "rotor read again, bad"},
    "reading at a place": {
        "rotor out and in", "lid out and in", "joint opened", "screw out and in", "ring renewed",
        "unit read again, bad",
    },
    "renewal": {"rotor out and in", "lid out and in"},
    "torque": {"lid out and in", "joint opened", "screw out and in"},
    "concession": {"word on the empty place", "options amended", "valve tried in the empty place"},
    "signature": {
        "condition of the rotor noted", "rotor is to be reworked", "rotor rinsed again", "rotor dried",
        "rotor read again, good", "rotor read again, bad", "rotor out and in", "lid out and in", "joint opened",
        "screw out and in", "ring renewed", "joint tightened again", "unit read again, bad",
    },
}  # fmt: skip
"""What lies on the ground of each; all other acts lie beside it. A word on an untouched place takes the hole away: its
narrowing says that instead."""


@pytest.mark.parametrize("act", list(ACTS))
@pytest.mark.parametrize("verdict", list(LAPSES))
def test_what_lies_on_a_ground_lapses_and_what_lies_beside_does_not(points: Twin | App, verdict: str, act: str) -> None:
    """Every act against every verdict."""
    tale = Done(points)
    ACTS[act](tale)
    assert _has_lapsed(tale, verdict) == (act in LAPSES[verdict])


def _has_lapsed(tale: Done, verdict: str) -> bool:
    """Its point stands; of a release also where it is silent, as another point of the part speaks: that is cleared."""
    if verdict == "release":
        if f"check due|{tale.rotor}|check/look//finished" in tale.open_now():
            tale.read(tale.rotor, "look", "accept", when="finished")
        if tale.rotor in tale.subjects(ACCEPTED):
            return True
    if verdict == "concession" and tale.stands(ACCEPTED):
        return tale.key(verdict) not in {each.key for each in tale.seen()}
    return tale.key(verdict) in tale.open_now()


ON_A_GROUND = sorted((verdict, act) for verdict, acts in LAPSES.items() for act in acts)


@pytest.mark.parametrize(("verdict", "act"), ON_A_GROUND)
def test_no_taking_back_that_nobody_accepted_revives_it(points: Twin | App, verdict: str, act: str) -> None:
    """All that the act wrote is taken back by its author; the verdict is given again, or the taking back accepted."""
    tale = Done(points)
    before = len(tale.first.own(JOB))
    ACTS[act](tale)
    for record in tale.first.own(JOB)[before:]:
        tale.take_back(record, by=record.act if record.typ != "disposition.given" else "EE")
    assert tale.stands(ACCEPTED) or _has_lapsed(tale, verdict), "it stands open, or somebody has to say yes"
