"""What a lack is: what stands against a thing, what it rests on, and the act that clears it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import partial
from typing import NamedTuple

from teardown_app.domain.bill.gate import CLOSED_UP, POWER_ON, SHIP
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.conceding import Ground, is_conceded
from teardown_app.domain.parts.filling import place_of
from teardown_app.domain.parts.parts import own_place


class ToDo(NamedTuple):
    """An act to be done: the name of its row, what it is about, and what it is given."""

    act: str
    about: str
    """A place (`@10.90`), a part, a thing; never a typed name."""
    fields: tuple[tuple[str, str], ...] = ()

    def given(self, name: str) -> str:
        """One of the things it is given, empty where it is not."""
        return dict(self.fields).get(name, "")


class Where(NamedTuple):
    """What a lack is about: a place, a part, or both; `subject` names it in the point's key."""

    subject: str
    position: str = ""
    part: str = ""

    @property
    def thing(self) -> str:
        """The part, else the place (`@10`), as records name it; empty where it is about neither."""
        return self.part or (position_thing(self.position) if self.position else "")


class Lack(NamedTuple):
    """One thing that stands against a place, a part or the job.

    `ground` gives the records that a concession has to have seen. `gate` is empty where it stands against an act only
    and is no open point. `never` is true for what no signature concedes. `accepted` is true of what is *to be
    accepted* and is.
    """

    kind: str
    where: Where
    wrong: str
    clears: str
    gate: str
    to_do: ToDo | None = None
    ground: Ground = tuple
    which: str = ""
    never: bool = False
    accepted: bool = False
    right: str = ""
    """The right that accepts it, of what is *to be accepted*."""


class LackKind(NamedTuple):
    """What all lacks of a kind have in common: the gate they stop, and what clears them."""

    gate: str
    clears: str


MISSING = "missing"
TWICE = "fitted twice"
FOREIGN_OWNER = "belongs to another job or owner"
WRONG_COMPONENT = "wrong component"
SWAPPED = "swapped within a matched set"
OVER_EMPTY = "fitted over an empty position"
HARDWARE = "hardware does not balance"
TORQUE = "joint not torqued or due again"
CONSUMABLE = "consumable not renewed or expired"
RUNNING = "temporary in or out wrongly"
CHECK_DUE = "check due"
HOLD = "hold"
WAITING = "approval waiting"
DECLINED = "declined by the customer"
NOT_RELEASED = "not released"
UNACCOUNTED = "tagged but unaccounted for"
FOREIGN_PIECE = "foreign piece"
DEBT = "debt"
TWO_PARTS = "label of two parts"
TWO_ENTRIES = "two different entries"
TO_ACCEPT = "to be accepted"
SIGN_AGAIN = "sign again"
RECALL = "recall"
NO_RIGHT = "record by someone without the right"
MISFIT = "record kept that does not fit"
NEWER = "record from a newer app"
NOT_HERE = "record not here"
TWO_VERSIONS = "two versions of a record"

JOB_CLOSED = "job closed"
NO_PART = "no part known"
SEVERAL = "several parts known"
NOT_OFF = "not taken off"
FITTED = "fitted already"
NOT_FITTED = "fitted nowhere"
CAME_OFF = "came off already"
FOREIGN = "belongs to another"
GONE_PART = "does not go back"
NOT_ASKED = "not asked for"
OTHER_NUMBER = "does not fit"
OCCUPIED = "filled already"
NOT_OF_SET = "not of the set"
CLOSED_OVER = "closed over"
OVER = "closes over what is empty"
OVER_WRONG = "closes over what is wrong"
OVER_DUE = "closes over what is due"
HELD_EMPTY = "holds what is not fitted"
SCREWS_OUT = "screws not put in"
SHORT_IN_BAG = "too few in the bag"
RESTS = "rests"
STATE = "is so already"
HARMS = "harms the material"
NOT_FINISHED = "not read a first time"
NOT_READ = "not read as found"
NO_INSTRUMENT = "no instrument is fit"
NO_SEAT = "for no place"
DISPOSITION = "disposition"
OPERATION = "operation"
WRITTEN_DOWN = "not written down"
WAIT = "wait"
RELEASE = "release"

LACKS: dict[str, LackKind] = {
    MISSING: LackKind(CLOSED_UP, "Fit a released part, or say why the place stays empty (concede it)."),
    TWICE: LackKind(SHIP, "Look where it is, and take the other out."),
    FOREIGN_OWNER: LackKind(CLOSED_UP, "Take it out, or record that it was handed over."),
    WRONG_COMPONENT: LackKind(CLOSED_UP, "Take it out and fit the right part."),
    SWAPPED: LackKind(CLOSED_UP, "Fit the part that came out of this place, or a complete new set."),
    OVER_EMPTY: LackKind(CLOSED_UP, "Take what is over it out and fill it first."),
    HARDWARE: LackKind(CLOSED_UP, "Count, put in what is missing, and say what became of the rest."),
    TORQUE: LackKind(CLOSED_UP, "Tighten every screw in the order given and record each pass."),
    CONSUMABLE: LackKind(CLOSED_UP, "Fit a new one and record its lot and expiry."),
    RUNNING: LackKind(POWER_ON, "Put it where it belongs and record it."),
    CHECK_DUE: LackKind(CLOSED_UP, "Read the check."),
    HOLD: LackKind(CLOSED_UP, "Lift the hold when its reason is gone."),
    WAITING: LackKind(CLOSED_UP, "Ask, and record the answer with its reference."),
    DECLINED: LackKind(CLOSED_UP, "Concede it by signature with the customer's reference, or replace the part."),
    NOT_RELEASED: LackKind(CLOSED_UP, "Release it."),
    UNACCOUNTED: LackKind(SHIP, "Fit it, or disposition it as spare, return unrepaired or scrap."),
    FOREIGN_PIECE: LackKind(SHIP, "Fit it, or disposition it as spare, return unrepaired or scrap."),
    DEBT: LackKind(SHIP, "Give it or its like back, or have it conceded by whom it belongs to."),
    TWO_PARTS: LackKind(SHIP, "Put a new label on one of them, or say that they are the same part."),
    TWO_ENTRIES: LackKind(SHIP, "Look which is right and record it again."),
    TO_ACCEPT: LackKind(CLOSED_UP, "Accept it, or do what it took away, or take it back."),
    RECALL: LackKind(SHIP, "Send the notice and concede this with its reference."),
    SIGN_AGAIN: LackKind(SHIP, "Look at what changed and sign again."),
    NO_RIGHT: LackKind(SHIP, "Let somebody with the right record it again."),
    MISFIT: LackKind(SHIP, "Look what was meant and record that."),
    NEWER: LackKind(SHIP, "Bring this tablet's app up to date."),
    NOT_HERE: LackKind(SHIP, "Carry the records over from that tablet, or the office retires it."),
    TWO_VERSIONS: LackKind(SHIP, "Look at both, put right what is wrong, and concede it."),
    JOB_CLOSED: LackKind("", "Reopen it with a reason first."),
    NO_PART: LackKind("", "Bring in a part for it."),
    SEVERAL: LackKind("", "Scan the one that goes in."),
    NOT_OFF: LackKind("", "Take it off first."),
    FITTED: LackKind("", "Take it out there first."),
    NOT_FITTED: LackKind("", "Nothing needs to be taken out."),
    CAME_OFF: LackKind("", "If it is the same part, say so. If the tool had one more, record that as extra."),
    FOREIGN: LackKind("", "Have it handed over with the owner's consent, or fit another part."),
    GONE_PART: LackKind("", "Give it another disposition, or take another part."),
    NOT_ASKED: LackKind("", "If that is not so, put it right first."),
    OTHER_NUMBER: LackKind("", "Look at the part and its label again, or fit the right one."),
    OCCUPIED: LackKind("", "Take that out first, with the reason."),
    NOT_OF_SET: LackKind(
        "",
        "Fit the part that came out of this place, or new parts with one set mark in all places of the set.",
    ),
    CLOSED_OVER: LackKind("", "Take that out first, with the reason."),
    OVER: LackKind("", "Fit them first, or say why a place stays empty."),
    OVER_WRONG: LackKind("", "Put that right first, or have it conceded."),
    OVER_DUE: LackKind("", "Do that first; afterwards it is reached only by taking this out again."),
    HELD_EMPTY: LackKind("", "Fit it first."),
    SCREWS_OUT: LackKind("", "Put the rest in first."),
    SHORT_IN_BAG: LackKind("", "Count what was found, or say how many were taken new."),
    RESTS: LackKind("", "Wait until it is over."),
    STATE: LackKind("", "Nothing needs to be recorded."),
    HARMS: LackKind("", "Skip it by name."),
    NOT_FINISHED: LackKind("", "Read it a first time."),
    NOT_READ: LackKind("", "Read it before work begins on the part."),
    NO_INSTRUMENT: LackKind("", "Have one calibrated, or register one that is in date."),
    NO_SEAT: LackKind("", "Say for which place it is."),
    DISPOSITION: LackKind("", "Give it the disposition use as is, rework or repair."),
    OPERATION: LackKind("", "Do it, or skip it by name."),
    WRITTEN_DOWN: LackKind("", "Read it off the part and write it down."),
    WAIT: LackKind("", "Wait, or have it recorded as over by somebody with the right to release."),
    RELEASE: LackKind("", "Release it."),
}
"""Kind -> its row. A kind without a gate stands against acts only and is no open point."""


def lack(
    kind: str,
    where: Where,
    wrong: str,
    *,
    to_do: ToDo | None = None,
    ground: Ground | Iterable[Record] = (),
    which: str = "",
    gate: str = "",
    clears: str = "",
    never: bool = False,
    accepted: bool = False,
    right: str = "",
) -> Lack:
    """A lack; gate and remedy are its kind's where none are given. A ground that is long is given as a question."""
    row, behind = LACKS[kind], ground if callable(ground) else partial(tuple[Record, ...], tuple(ground))
    clears, gate = clears or row.clears, gate or row.gate
    return Lack(kind, where, wrong, clears, gate, to_do, behind, which, never, accepted, right)


def taking_out(part: str, key: str) -> ToDo:
    """The act that takes a part out of a place."""
    return ToDo("part out", part, (("position", key),))


def at_place(key: str, part: str = "") -> Where:
    """About a place, and the part in it if there is one."""
    return Where(key, key, part)


@remembered
def of_part(job: Job, part: str) -> Where:
    """About a part, and the place it sits in or is meant for."""
    return Where(part, place_of(job, part) or own_place(job, part), part)


def conceded(job: Job, one: Lack) -> bool:
    """True while somebody with the right conceded this lack and had seen the ground it has now, or accepted it."""
    if one.kind == TO_ACCEPT:
        return one.accepted
    return not one.never and is_conceded(job, one.kind, one.where.subject, one.which, one.ground, one.where.thing)


def standing(job: Job, found: Iterable[Lack]) -> Iterator[Lack]:
    """Of these lacks those that nobody conceded."""
    return (one for one in found if not conceded(job, one))
