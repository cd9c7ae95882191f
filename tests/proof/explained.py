"""Why a point went after one record of somebody with the right *record* alone: the record did what the point says, a
narrowing waits in its place, or another point says the same thing."""

from __future__ import annotations

from collections.abc import Callable

from attrs import frozen

from teardown_app.domain.ledger.record import Record
from tests.open_points.naive import Witness
from tests.open_points.naive_acts import asks
from tests.proof.implementations import Standing

SEATING = ("part.fitted", "part.taken_out")
HOLES = ("missing", "fitted over an empty position")
OF_A_FILLED_PLACE = ("belongs to another job or owner", "wrong component", "swapped within a matched set")
SPEAK_FIRST = ("check due", "hold", "approval waiting", "declined by the customer", "to be accepted")
"""Where one of these is open of a part, *not released* is silent."""
OF_RECORDS = ("record by someone without the right", "record kept that does not fit")
MAKERS = ("part.taken_off", "part.brought_in", "goods.taken_over")


def is_said_otherwise(key: str, standing: set[str]) -> bool:
    """Whether, of one fault, another open point of the same thing speaks where this one is silent."""
    kind, subject, which = key.split("|")
    families = {"not released": SPEAK_FIRST, **dict.fromkeys(HOLES, (*HOLES, "fitted twice"))}
    families |= dict.fromkeys(OF_A_FILLED_PLACE, OF_A_FILLED_PLACE)
    about = {which or subject} if kind in HOLES else {subject}
    others = [each.split("|") for each in standing]
    return any(other[0] in families.get(kind, ()) and about & set(other[1:]) for other in others)


@frozen
class Deed:
    """One record, what it speaks of, and what was known before and after."""

    record: Record
    target: Record | None
    """What it takes back."""
    before: Witness
    after: Witness
    standing: dict[str, Standing]
    """Points after it."""
    asks_anew: bool = False
    """Whether a point came."""

    @property
    def done(self) -> Record:
        """The record itself, or the one it takes back."""
        return self.target or self.record

    def is_one_of(self, *kinds: str) -> bool:
        """Whether it is of these kinds, or takes one of them back."""
        return any(self.done.typ == each or self.done.typ.startswith(each + ".") for each in kinds)

    def things(self) -> set[str]:
        """Places and parts that it speaks of; of a part the name that is shown."""
        body = self.done.body
        keys = [body[name] for name in ("out_of", "meant_for") if isinstance(body.get(name), str)]
        keys += list(body.get("came_with", []))
        return {self.before.told.one(thing).removeprefix("@") for thing in self.done.ent} | set(keys)

    def near(self, subject: str) -> set[str]:
        """A place or part, what claims it or is claimed by it, and what its part came out of or is meant for."""
        found = {subject}
        for witness in (self.before, self.after):
            tool = witness.tool
            if subject in tool.places:
                found |= {part for part in tool.parts if subject in tool.claims(part)} | set(tool.fitted_at(subject))
            if subject in tool.parts:
                found |= {*tool.claims(subject), *tool.seat(subject), tool.out_of(subject)} - {""}
        return found

    def open(self, *kinds: str) -> list[tuple[str, str]]:
        """Subject and which of open points of these kinds, after it."""
        keys = [each.key.split("|") for each in self.standing.values() if each.state == "open"]
        return [(subject, which) for kind, subject, which in keys if kind in kinds]


Explains = Callable[[Deed, str, str], bool]


def is_explained(deed: Deed, key: str) -> bool:
    """Whether it may be that this point went."""
    kind, subject, which = key.split("|")
    if deed.record.ref in {which for _, which in deed.open("to be accepted")}:
        return True
    if deed.done.typ == "part.same_as":
        return deed.target is not None or _came_off_twice(deed)
    if kind in OF_RECORDS:
        told = deed.before.told
        mine = (
            {told.records[which].typ} if which in told.records else {each.typ for each in told.job if each.dev == which}
        )
        return deed.done.ref == which or deed.record.typ in mine
    return kind in DOES and DOES[kind](deed, subject, which)


def _came_off_twice(deed: Deed) -> bool:
    """Two tablets took one part off one place, and it is said that it is one."""
    made = [each for each in deed.before.told.job if each.typ == "part.taken_off" and each.ent[0] in deed.record.ent]
    return {each.ent[0] for each in made} == set(deed.record.ent) and len(
        {each.body.get("out_of") for each in made}
    ) == 1


def _hole(deed: Deed, subject: str, which: str) -> bool:
    key = which or subject
    still = {one or other for other, one in deed.open(*HOLES)}
    twice = {near for other, _ in deed.open("fitted twice") for near in deed.near(other)}
    taken = deed.is_one_of(*SEATING) and bool({key, subject} & deed.things())
    return key in still | twice or taken


def _twice(deed: Deed, subject: str, which: str) -> bool:
    still = {other for other, _ in deed.open("fitted twice")}
    return bool(still & deed.near(subject)) or (deed.is_one_of(*SEATING) and _speaks_of(deed, subject))


def _speaks_of(deed: Deed, subject: str) -> bool:
    return bool(deed.things() & deed.near(subject))


def _filled(deed: Deed, subject: str, which: str) -> bool:
    """Something else is there; or a fact of the part was first said, and the part is still to be released."""
    places = set(deed.before.tool.matched(subject)) | {subject} if subject in deed.before.tool.places else {subject}
    if any(other == subject for other, _ in deed.open(*OF_A_FILLED_PLACE)):
        return True
    near = {each for key in places for each in deed.near(key)}
    if deed.is_one_of(*SEATING):
        return bool(near & deed.things())
    parts = [each for each in deed.things() & near if each in deed.after.tool.parts]
    waiting = {other for other, _ in deed.open("not released", *SPEAK_FIRST)}
    return deed.record.typ == "part.noted" and bool(parts) and set(parts) <= waiting


def _hardware(deed: Deed, subject: str, which: str) -> bool:
    bag = {each.removeprefix("@") for each in deed.after.hardware.bag("@" + subject)}
    if {other for other, _ in deed.open("hardware does not balance")} & bag - {subject}:
        return True
    return deed.is_one_of("hardware", "goods") and bool(bag & deed.things())


def _same(*kinds: str) -> Explains:
    """It is done, at this very thing; taking back does nothing."""
    return lambda deed, subject, which: deed.target is None and deed.is_one_of(*kinds) and subject in deed.things()


def _renewed(deed: Deed, subject: str, which: str) -> bool:
    """It is renewed, or of two renewals that differ one is taken back."""
    return deed.is_one_of("consumable") and subject in deed.things()


def _check(deed: Deed, subject: str, which: str) -> bool:
    """Read; or the part goes elsewhere, or does not go back: then its new place asks, and the old one is empty."""
    if deed.target is None and deed.is_one_of("check"):
        body = deed.done.body
        return subject in deed.things() and which.split("/")[1:] == [
            body["check"], body.get("spot", ""), body["when"],
        ]  # fmt: skip
    moved = deed.is_one_of(*SEATING, "disposition.given", *MAKERS) or "meant_for" in deed.done.body
    return moved and _speaks_of(deed, subject)


def _answer(deed: Deed, subject: str, which: str) -> bool:
    return deed.is_one_of("disposition.given", *SEATING) and subject in deed.things()


def _released(deed: Deed, subject: str, which: str) -> bool:
    if any(other == subject for other, _ in deed.open(*SPEAK_FIRST)):
        return True
    return deed.is_one_of(*SEATING) and _speaks_of(deed, subject)


def _account(deed: Deed, subject: str, which: str) -> bool:
    still = {other for other, _ in deed.open("tagged but unaccounted for", "foreign piece", "fitted twice")}
    if still & deed.near(subject):
        return True
    seated = "out_of" in deed.done.body or "meant_for" in deed.done.body
    return subject in deed.near(subject) & deed.things() and (
        deed.is_one_of("disposition.given", *SEATING) or seated
    ) or (deed.is_one_of(*SEATING) and _speaks_of(deed, subject))  # fmt: skip


def _label(deed: Deed, subject: str, which: str) -> bool:
    return deed.is_one_of("part.tagged", "part.renumbered", "part.noted")


def _differ(deed: Deed, subject: str, which: str) -> bool:
    """Somebody said it again, or took one of the two back."""
    kinds = {
        "scope": ("configuration", "part.fitted"), "came_out": ("part.noted",), "found": ("hardware.counted",),
        "renewal": ("consumable",), "check": ("check",), "operation": ("operation",), "approval": ("finding",),
        "disposition": ("disposition",),
    }  # fmt: skip
    fact = which.partition("/")[0]
    return deed.is_one_of(*kinds.get(fact, ("part.noted", *MAKERS, "thing.put")))


def _accepted(deed: Deed, subject: str, which: str) -> bool:
    """It was taken back, or is no more the last word on the same thing; or what it took away is asked once more."""
    narrowing = deed.before.told.records[which]
    named = narrowing.body.get("record", which)
    again = deed.target is None and asks(deed.record)
    return again or deed.asks_anew or deed.done.ref in (which, named) or bool(deed.near(subject) & deed.things())


DOES: dict[str, Explains] = {
    "missing": _hole,
    "fitted over an empty position": _hole,
    "fitted twice": _twice,
    **dict.fromkeys(OF_A_FILLED_PLACE, _filled),
    "hardware does not balance": _hardware,
    "joint not torqued or due again": _same("joint.torqued"),
    "consumable not renewed or expired": _renewed,
    "temporary in or out wrongly": _same("temporary"),
    "check due": _check,
    "hold": _answer,
    "approval waiting": _answer,
    "declined by the customer": _answer,
    "not released": _released,
    "tagged but unaccounted for": _account,
    "foreign piece": _account,
    "label of two parts": _label,
    "two different entries": _differ,
    "to be accepted": _accepted,
}
