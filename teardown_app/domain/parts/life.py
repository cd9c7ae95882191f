"""The life of a thing in sentences: what was recorded of it, in order."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.effect import VOIDED
from teardown_app.domain.ledger.entry import display_order
from teardown_app.domain.ledger.record import Record, is_position
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import own_place, parts

VERBS = {
    "job.opened": "opened the job for order {order}, serial {serial}",
    "job.amended": "amended the job: {why}",
    "job.closed": "closed the job",
    "job.reopened": "reopened the job: {why}",
    "configuration.received": "{as}",
    "line.added": "added a place: {description}",
    "photo.taken": "photographed it",
    "point.conceded": "conceded an open point: {why} ({reference})",
    "work.signed": "signed: {meaning}",
    "record.voided": "took back {record}: {why}",
    "part.taken_off": "took it off",
    "part.brought_in": "brought in a part, {origin}",
    "part.tagged": "put the label {number} on it",
    "part.renumbered": "put a new label {number} on it: {why}",
    "part.same_as": "said that these are the same part",
    "part.noted": "noted what it is",
    "thing.put": "put it in {place}",
    "finding.noted": "found {word} ({cause})",
    "approval.given": "recorded the answer: {as}",
    "disposition.given": "dispositioned it: {as}",
    "hold.placed": "put it on hold: {why}",
    "hold.lifted": "lifted the hold: {why}",
    "goods.handed_over": "handed it over to {to} ({consent})",
    "goods.taken_over": "took it over from {of} ({consent})",
    "goods.given_back": "gave it back to {job} ({consent})",
    "check.read": "read {check} ({when}): {verdict}",
    "check.not_possible": "could not read {check} ({when}): {why}",
    "operation.started": "began {operation}",
    "operation.done": "finished {operation}",
    "operation.stopped": "stopped {operation}",
    "operation.skipped": "skipped {operation}: {why}",
    "wait.over": "said that the wait after {operation} is over: {why}",
    "part.released": "released it",
    "part.fitted": "fitted it",
    "part.taken_out": "took it out again",
    "hardware.counted": "counted {found}",
    "hardware.moved": "moved hardware",
    "joint.opened": "opened the joint",
    "joint.torqued": "torqued pass {pass} % on {screws}",
    "consumable.renewed": "{as} the consumable",
    "temporary.in": "put it in for a time",
    "temporary.out": "took it out",
}
"""What a person did, in words; fields in braces stand in the record's body."""


class _Blank(dict[str, object]):
    """Fields that a record lacks read as nothing."""

    def __missing__(self, key: str) -> str:
        return "-"


def deed_of(record: Record) -> str:
    """What the author of a record did, without about what: `released it`."""
    return VERBS.get(record.typ, record.typ.replace(".", " ")).format_map(_Blank(record.body))


def sentence(job: Job, record: Record) -> str:
    """What one record says: day, who, what, about what."""
    verb = deed_of(record)
    about = ", ".join(_name(job, thing) for thing in record.ent[:4] if thing != "job")
    more = f" and {len(record.ent) - 4} more" if len(record.ent) > 4 else ""
    clock = "" if record.clk == "ok" else f" (clock {record.clk})"
    back = " - TAKEN BACK" if job.effect(record) == VOIDED else ""
    trial = " [trial]" if record.trial else ""
    when = record.wall[:16].replace("T", " ")
    what = f"{verb}: {about}{more}" if about else verb
    return f"{when}{clock} {record.act} {what}{back}{trial}"


def _name(job: Job, thing: str) -> str:
    if is_position(thing):
        return named(job, thing[1:])
    part = job.group(thing)[0]
    for owner in job.entries(thing, "of"):
        return _name(job, owner.value)
    for entry in job.entries(thing, "what"):
        return str(entry.value)
    return part_named(job, part)


def life_of(job: Job, thing: str) -> Iterator[Record]:
    """Records about a thing (a part, a place), the findings and holds on it included, oldest first."""
    names = set(job.group(thing))
    names |= {entry.value for one in ("finding", "hold") for entry in job.entries(thing, one)}
    for record in in_order(job):
        if names & set(record.ent) or any(record.thing(n) in names for n in range(1, len(record.ent) + 1)):
            yield record


def in_order(job: Job) -> list[Record]:
    """All records of the job, oldest first."""
    return sorted(job.records.values(), key=display_order)


def all_parts(job: Job) -> list[str]:
    """Parts in the order of their places, those without one last."""
    order = {key: n for n, key in enumerate(job.positions)}
    return sorted(parts(job), key=lambda part: (order.get(own_place(job, part), len(order)), part))
