"""Checks that a part or place needs, and whether their readings still count."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from teardown_app.domain.bill.bill import Check, Line, Position
from teardown_app.domain.bill.gate import CLOSED_UP, GATES
from teardown_app.domain.job.ground import lying
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry, settled
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.conceding import may_be_conceded
from teardown_app.domain.parts.doubt import doubts
from teardown_app.domain.parts.filling import goes_in_as_one
from teardown_app.domain.parts.parts import is_new
from teardown_app.domain.parts.routing import remaining
from teardown_app.domain.parts.seat import lines_of
from teardown_app.domain.places.one_state import in_one_state
from teardown_app.domain.places.read_with import is_too_soon, unfit_instrument
from teardown_app.domain.places.reading_ground import (
    AGAIN,
    Reading,
    operation_spoils,
    reading_of,
    reading_stands,
)

FINISHED, NEW, PLAIN, FITTED = "finished", "new", "plain", "fitted"

PART_TIMES = ("arrival", "as found", FINISHED, NEW, FINISHED + AGAIN, NEW + AGAIN)
"""Times at which a check is about the part; at the others it is about the place."""

AS_FOUND = ("arrival", "as found")
"""Readings of the part as it came, before anything is done to it."""

BINDS_NOTHING = ("arrival", "as found", PLAIN)
"""Readings that show their verdict and are no condition of anything."""

GRAVER = ("reject", "inconclusive")
"""What an *accept* in one state with it does not simply replace."""


class Needed(NamedTuple):
    """One reading that is asked for."""

    check: Check
    spot: str
    when: str

    @property
    def facet(self) -> str:
        """Facet that holds the reading."""
        return check_facet(self.check.name, self.spot, self.when)

    @property
    def reading(self) -> Reading:
        """Check, spot and when."""
        return self.check.name, self.spot, self.when

    @property
    def says(self) -> str:
        """What is looked at, and where."""
        spot = f" at {self.spot}" if self.spot else ""
        return (self.check.says or self.check.name) + spot


UNFIT, IN_DOUBT = "not fit to release", "in doubt"
"""An accepted reading that counts for nothing as it was taken, and one whose instrument was found out later."""

NO_INSTRUMENT, TOO_SOON = "not read with its instrument", "looked at again before its hours were over"
"""An accepted reading whose instrument is none of the register's in date, though the check asks for one; and a second
look that came too early."""

OVER_GRAVER = "read again with nothing changed between"
"""An accepted reading of a protective function over a graver one in one state."""


class Status(NamedTuple):
    """Where a needed reading stands: its verdict, `not possible`, `due`, `due again`, or why an *accept* counts for
    nothing."""

    needed: Needed
    word: str
    heads: tuple[Entry, ...]


# which readings are asked


def needed_for(job: Job, position: Position, times: tuple[str, ...]) -> list[Needed]:
    """Readings that the line of a place asks for at any of these times."""
    return [
        Needed(check, spot, when)
        for check in _checks(job, position.line)
        for when in times_of(check)
        if when in times
        for spot in (check.spots or ("",))
    ]


def _checks(job: Job, line: Line) -> list[Check]:
    return [job.bill.checks[name] for name in line.checks if name in job.bill.checks]


def times_of(check: Check) -> tuple[str, ...]:
    """When a check is read: as the bill says, else finished; and again where it is to be looked at twice."""
    return _twice(check, check.when or (FINISHED,))


def _twice(check: Check, times: Iterable[str]) -> tuple[str, ...]:
    if check.again_h is None:
        return tuple(times)
    return tuple(one for when in times for one in ((when, when + AGAIN) if when not in BINDS_NOTHING else (when,)))


def _at_spots(check: Check, times: Iterable[str]) -> list[Needed]:
    return [Needed(check, spot, when) for when in _twice(check, times) for spot in (check.spots or ("",))]


@remembered
def release_checks(job: Job, part: str) -> list[Needed]:
    """Readings without which the part is not released: of each line of its seat."""
    wanted = [
        needed
        for line in lines_of(job, part)
        for check in _checks(job, line)
        for needed in _at_spots(check, _time_of_part(check, is_new(job, part)))
    ]
    return list({needed.facet: needed for needed in wanted}.values())


def _time_of_part(check: Check, new: bool) -> list[str]:
    """*new* for a new part, else *finished*; of a protective check without *new* it is *finished* for every part."""
    times = check.when or (FINISHED,)
    wanted = NEW if new else FINISHED
    if not may_be_conceded(check) and NEW not in times:
        wanted = FINISHED
    return [wanted] if wanted in times else []


def place_checks(job: Job, position: Position) -> list[Needed]:
    """Readings about the place rather than the part. What holds no part of its own is read there when finished."""
    if position.key not in job.bill.positions:
        return []
    whole = position.line.kind in ("hardware", "consumable")
    whole = whole or (position.line.kind == "assembly" and not goes_in_as_one(job, position))
    return [
        needed
        for check in _checks(job, position.line)
        for needed in _at_spots(check, _times_of_place(check, whole=whole))
    ]


def _times_of_place(check: Check, *, whole: bool) -> list[str]:
    times = check.when or (FINISHED,)
    wanted = [one for one in times if one == FITTED or one in GATES]
    return wanted + [one for one in (FINISHED, NEW) if whole and one in times][:1]


def gate_of(when: str) -> str:
    """The gate that a reading stops: the one it is read for, else *closed up*."""
    gate = when.removesuffix(AGAIN)
    return gate if gate in GATES else CLOSED_UP


# whether a reading counts


def part_status(job: Job, part: str, needed: Needed) -> Status:
    """Where a reading on a part stands."""
    return status(job, part, needed)


def place_status(job: Job, position: Position, needed: Needed) -> Status:
    """Where a reading at a place (fitted, or for a gate) stands: taken after the present fittings."""
    return status(job, position_thing(position.key), needed)


def status(job: Job, thing: str, needed: Needed) -> Status:
    """Where a reading stands; it counts when the word is *accept*."""
    heads = job.heads(thing, needed.facet)
    return Status(needed, _word(job, thing, needed, heads), heads)


def _word(job: Job, thing: str, needed: Needed, heads: tuple[Entry, ...]) -> str:
    if not heads:
        return "due"
    if not all(reading_stands(job, thing, needed.reading, head.record) for head in heads):
        return "due again"
    word = str(settled([head.value for head in heads], needed.facet).verdict)
    return word if word != "accept" else _worth(job, needed, heads)


def _worth(job: Job, needed: Needed, heads: tuple[Entry, ...]) -> str:
    """Why readings that all say *accept* count for nothing, else *accept*."""
    if any(head.value.unfit for head in heads):
        return UNFIT
    if any(unfit_instrument(job, needed.check, head) for head in heads):
        return NO_INSTRUMENT
    if any(is_too_soon(job, needed.check, head) for head in heads):
        return TOO_SOON
    if doubts_of(job, heads):
        return IN_DOUBT
    if any(over_protective(job, needed.check, head) for head in heads):
        return OVER_GRAVER
    return "accept"


def over_protective(job: Job, check: Check, entry: Entry) -> bool:
    """Is this an *accept* of a protective check over a graver reading in one state with it?"""
    if may_be_conceded(check):
        return False
    gone = [one for one in job.ever(entry.thing, check_facet(*reading_of(entry))) if job.takings_back(one.record)]
    there = [*job.entries(entry.thing, check_facet(*reading_of(entry)))]
    there += [one for one in gone if lying(job, [one.record], entry.thing)]
    return any(over_graver(job, entry, one) for one in there)


def over_graver(job: Job, entry: Entry, earlier: Entry) -> bool:
    """Is a reading *accept* and an earlier one, which its author had seen, graver and in one state with it?"""
    if entry.value.verdict != "accept" or earlier.value.verdict not in GRAVER:
        return False
    return job.knowing.knew(entry.record, earlier.record) and in_one_state(job, entry, earlier)


def is_protective(job: Job, name: str) -> bool:
    """True for a check of a protective function; one that the bill does not have is known by its name."""
    return not may_be_conceded(job.bill.checks.get(name, Check(name)))


# what was found out about instruments


def doubts_of(job: Job, heads: Iterable[Entry]) -> list[Entry]:
    """What was found out about instruments and makes these readings doubtful."""
    return [one for head in heads for one in doubts(job, head)]


def why_open(job: Job, status: Status) -> str:
    """Why a reading that is there does not count, as a sentence; empty where the word says it all."""
    expected = sorted({head.value.expected for head in status.heads if head.value.expected})
    if expected:
        return f"Its result is expected on {expected[0]}."
    if status.word == UNFIT:
        return "; ".join(sorted({head.value.unfit for head in status.heads if head.value.unfit})) + "."
    if status.word == NO_INSTRUMENT:
        wrong = {unfit_instrument(job, status.needed.check, head) for head in status.heads} - {""}
        return " ".join(f"{one[0].upper()}{one[1:]}." for one in sorted(wrong))
    if status.word == IN_DOUBT:
        found = doubts_of(job, status.heads)
        said = sorted({tuple(e.value) for e in found})
        return " ".join(f"Instrument {name} was found out by {by}; last known good on {day}." for name, by, day in said)
    return ""


def spoils_ahead(job: Job, part: str, check: Check) -> list[str]:
    """Operations still to come on the part that will spoil a reading taken now."""
    return [one.says or one.id for one in remaining(job, part) if operation_spoils(one, check)]
