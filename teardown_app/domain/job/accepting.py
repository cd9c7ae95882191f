"""Takings back and acceptances: what a taking back takes away, who may accept it, and whether somebody did."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from teardown_app.domain.job.job import Job
from teardown_app.domain.job.recorded_again import is_recorded_again
from teardown_app.domain.ledger.acts import ACCEPTING, asks
from teardown_app.domain.ledger.facets import FACETS
from teardown_app.domain.ledger.record import Record, is_position

FACTS = tuple(name for name, facet in FACETS.items() if facet.fact)
"""Facts of a part whose taking back narrows, first said or not."""

SAYS_FACTS = ("part.taken_off", "part.brought_in", "goods.taken_over", "part.noted")
BORROWED = "borrowed"


class Taken(NamedTuple):
    """A record that was taken back, for one thing it was about: whether that is a point, the second right it needs, and
    which of the takings back are accepted."""

    is_point: bool
    right: str
    accepted: tuple[Record, ...]


def is_accepted_off(job: Job, record: Record, thing: str = "") -> bool:
    """Is the taking back of a record accepted, so that the record lies on no ground of `thing` any more?

    Of a record that is not about `thing` (or without one) it has to be for all that the record is about.
    """
    if not job.takings_back(record):
        return False
    subjects, one = subjects_of(job, record), job.group(thing)[0] if thing else ""
    return all(taken(job, record, each).accepted for each in ([one] if one in subjects else subjects))


def subjects_of(job: Job, record: Record) -> list[str]:
    """What the taking back of a record is about: each of its places, else each of its parts."""
    places = [thing for thing in dict.fromkeys(record.ent) if is_position(thing)]
    return places or sorted({job.group(thing)[0] for thing in record.ent})


def taken(job: Job, target: Record, subject: str) -> Taken:
    """What became of a record that was taken back, for one thing it was about."""
    key = (taken, target.h, subject)
    known = job.memory.get(key)
    if known is None:
        known = job.memory[key] = _taken(job, target, subject)
    return known


def _taken(job: Job, target: Record, subject: str) -> Taken:
    lost, backs = facts_lost(job, target, subject), job.takings_back(target)
    narrows = bool(backs) and (asks(target) or bool(lost))
    is_point = narrows and not is_recorded_again(job, target, subject, lost)
    right = _right(job, target, subject, lost if is_point else _facts_said(target))
    accepted = (back for back in backs if _is_accepted(job, target, back, subject, right, is_point))
    return Taken(is_point, right, tuple(sorted(accepted, key=lambda back: back.ref)))


def _is_accepted(job: Job, target: Record, back: Record, subject: str, right: str, is_point: bool) -> bool:
    """By one who had seen both. What is no point can be accepted by its author only."""
    if not is_point:
        return accepts_own(job, back, right)
    those = acceptors(job, back, subject, right, by_release=right != "office")
    return any(had_seen_all(job, one, (target, back)) for one in those)


def facts_lost(job: Job, target: Record, subject: str) -> list[str]:
    """Facts that the record said, and that do not hold any more."""
    otherwise, said = {"origin": "as received"}, _facts_said(target)
    if "part_number" in said:
        line = job.positions.get(str(job.value(subject, "out_of", "")))
        otherwise["part_number"] = line.line.part_number if line else ""
    return [fact for fact in said if job.value(subject, fact, otherwise.get(fact)) != target.body[fact]]


def _facts_said(target: Record) -> list[str]:
    speaks = target.typ in SAYS_FACTS and not is_position(target.ent[0])
    return [fact for fact in FACTS if speaks and fact in target.body]


def _right(job: Job, target: Record, subject: str, facts: Iterable[str]) -> str:
    """Office where an owner is taken back, or an origin that is or was *borrowed*; else release."""
    if "owner" in facts:
        return "office"
    if "origin" not in facts:
        return "release"
    said = (entry for entry in job.ever(subject, "origin") if entry.value == BORROWED)
    was = any(one.record.h == target.h or job.knowing.knew(target, one.record) for one in said)
    return "office" if was else "release"


# acceptances of any narrowing


def accepts_own(job: Job, record: Record, right: str) -> bool:
    """Did its author accept his narrowing: had he the second right, and does the record say by which reference?"""
    reference = record.body.get("reference", "")
    return isinstance(reference, str) and bool(reference.strip()) and job.had_right(record, right)


def acceptors(job: Job, record: Record, subject: str, right: str, *, by_release: bool) -> list[Record]:
    """Records that accept a narrowing, whatever came since: its own, concessions of its key; of a part, releases."""
    found = [record] if accepts_own(job, record, right) else []
    for name in job.group(subject):
        key = f"point:{ACCEPTING}{name.removeprefix('@')}|{record.ref}"
        for entry in job.entries(key, "concession"):
            one = entry.record
            may = job.had_right(one, "concede") or job.had_right(one, right)
            found += [one] if may and job.knowing.knew(one, record) else []
    if by_release and not is_position(subject):
        released = (entry.record for entry in job.entries(subject, "released"))
        found += [one for one in released if job.knowing.knew(one, record)]
    return found


def had_seen_all(job: Job, acceptor: Record, cells: Iterable[Record]) -> bool:
    """Had an acceptor seen every record of the cells, his own left out?"""
    return all(one.h == acceptor.h or job.knowing.knew(acceptor, one) for one in cells)
