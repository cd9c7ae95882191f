"""A story of one job in a shop where hands have one right each, asked of one program."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.bill import Check, Joint, Line, Route
from teardown_app.domain.ledger.record import Record
from tests.open_points.story import Story
from tests.open_points.tablets import JOB, SHOP, Tablet
from tests.proof.implementations import App, Twin

PEOPLE = {
    "RR": ["record"],
    "EE": ["record", "release"],
    "OO": ["record", "office"],
    "KK": ["record", "concede"],
    "SS": ["record", "sign"],
}
"""Everybody records; EE releases, OO is the office, KK concedes, SS signs. AA, who opened the job, may all."""

ACCEPTED = "to be accepted"


def screws(position: str, count: int, **more: Any) -> Line:
    """A row of counted hardware, with what it holds where a torque is asked (`torque`, in newton metres)."""
    holds, torque, passes = more.pop("holds", ()), more.pop("torque", None), more.pop("passes", ())
    said = Joint("M6", torque_nm=torque and Decimal(torque), holds=holds, passes=tuple(map(Decimal, passes)))
    parent = position.rpartition(".")[0]
    return Line(
        position, parent, 2, f"PN-{position}", kind="hardware", quantity=Decimal(count),
        joint=said if torque or holds else None, **more,
    )  # fmt: skip


class Tale(Story):
    """A job on tablets; what stands is asked of one program."""

    def __init__(
        self, points: Twin | App, *lines: Line, checks: tuple[Check, ...] = (), routes: tuple[Route, ...] = ()
    ) -> None:
        super().__init__(*lines, checks=checks, routes=routes)
        self.program = points
        for code, rights in PEOPLE.items():
            self.person(code, rights)

    # -- what stands ---------------------------------------------------------------------------------

    def stands(self, kind: str, state: str = "open") -> list[str]:
        """Subject and which of all points of a kind in a state."""
        found = self.program(self.records(SHOP), JOB, self.records(JOB), self.bills)
        return [_rest(each.key) for each in found if (each.kind, each.state) == (kind, state)]

    def open_now(self) -> list[str]:
        """Keys of all open points."""
        found = self.program(self.records(SHOP), JOB, self.records(JOB), self.bills)
        return [each.key for each in found if each.state == "open"]

    def subjects(self, kind: str, state: str = "open") -> list[str]:
        """What the points of a kind are about, without which."""
        return [each.partition("|")[0] for each in self.stands(kind, state)]

    def is_closed(self) -> bool:
        """Whether the job is closed."""
        return self.program.is_closed(self.records(SHOP), JOB, self.records(JOB), self.bills)

    # -- deeds that many stories need ----------------------------------------------------------------

    def bring(self, of: str = "", on: Tablet | None = None, by: str = "AA", **more: Any) -> str:
        """A part of this part number comes from outside and gets its name; new unless said otherwise."""
        tablet = on or self.first
        body = {"origin": "new", "part_number": of, **more}
        return self.say("part.brought_in", tablet.thing(), by=by, on=on, **body).ent[0]

    def fit_ready(self, key: str, on: Tablet | None = None) -> str:
        """The part of a place comes off, is released and goes back in."""
        return self.fit(self.ready(self.off(key, on=on), on=on), key, on=on)

    def out(self, part: str, key: str, by: str = "AA", on: Tablet | None = None) -> Record:
        """A part comes out again."""
        return self.say("part.taken_out", part, f"@{key}", by=by, on=on)

    def word(self, key: str, word: str, by: str = "RR", on: Tablet | None = None, **more: Any) -> Record:
        """What was received of a place is said."""
        return self.say("configuration.received", f"@{key}", by=by, on=on, as_=word, **more)

    def read(self, thing: str, check: str, verdict: str, by: str = "RR", when: str = "fitted", **more: Any) -> Record:
        """A reading is taken at a place (`@10`) or on a part."""
        return self.say("check.read", thing, by=by, check=check, when=when, verdict=verdict, **more)

    def screw_in(self, key: str, count: int, by: str = "RR") -> Record:
        """A bag is counted and its screws go in; gives the record of those put in."""
        self.say("hardware.counted", f"@{key}", by=by, found=count)
        return self.say("hardware.moved", f"@{key}", by=by, put_in=count)

    def tighten(
        self, key: str, value: str = "6", pass_: str = "100", count: int = 1, on: Tablet | None = None, **more: Any
    ) -> Record:
        """So many screws of a joint are tightened to so many newton metres, by a hand with the right *record*."""
        body = {"pass": pass_, "screws": count, "torque": {"text": value, "unit": "N m"}, **more}
        return self.say("joint.torqued", f"@{key}", by="RR", on=on, **body)

    def sign(self, by: str = "SS", on: Tablet | None = None, about: str = "job") -> Record:
        """Somebody signs for the job."""
        return self.say("work.signed", about, by=by, on=on, meaning="reviewed", covers=[])

    def close(self, by: str = "SS", on: Tablet | None = None) -> Record:
        """The job is signed and closed in one act."""
        self.sign(by, on)
        return self.say("job.closed", "job", by=by, on=on)

    def accept(self, subject: str, record: Record, by: str) -> None:
        """A narrowing is accepted by a concession of its key."""
        key = f"{ACCEPTED}|{subject}|{record.ref}"
        about = subject if ":" in subject else f"@{subject}"
        body = {"key": key, "why": "agreed", "reference": "A-1", "lines": [], "covers": [record.ref]}
        self.say("point.conceded", about, by=by, **body)

    def waits(self, subject: str, record: Record) -> bool:
        """Whether a record is, about this thing, still to be accepted."""
        return f"{subject}|{record.ref}" in self.stands(ACCEPTED)


def _rest(key: str) -> str:
    return key.partition("|")[2].rstrip("|")
