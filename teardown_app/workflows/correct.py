"""A record is taken back by a new one that names it; nothing is changed or removed."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.acts import rights_to_take_back
from teardown_app.domain.ledger.effect import MISFIT, VOIDED
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.nouns.job import JOB
from teardown_app.domain.points.point import OPEN, Point
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import HANDED_IN, RECORD, Deed, Field

LASTING = ("job.opened",)
"""Kinds that cannot be taken back: everything else rests on them."""


CLOSES = "job.closed"


def take_back(act: Act, ref: str, points: Sequence[Point], *, why: str) -> Drafts:
    """Takes a record back. What it had replaced holds again. `points` are all of the job as they stand."""
    act.needs("record")
    record = _record(act, ref)
    if act.job.closed and record.typ != CLOSES:
        refuse(f"Job {act.job.number} is closed.", "Reopen it with a reason first.")
    if record.typ in LASTING:
        refuse("The opening of a job cannot be taken back.", "Amend it.", "job amend")
    if act.job.effect(record) == VOIDED:
        refuse("It was taken back already.", "To restore it, take back the record that took it back.")
    if not why.strip():
        refuse("Taking back needs its reason.", "Say why.")
    _check_right(act, record)
    _check_closing(act, record, points)
    return [act.draft("record.voided", record.ent, record=record.ref, why=why)]


def _record(act: Act, ref: str) -> Record:
    found = act.job.of_ref(ref) or [one for one in act.job.records.values() if one.h.startswith(ref)]
    if len(found) != 1 or len(ref) < 8:
        refuse(f"There is no record {ref} in job {act.job.number}.", "Take its name from job log.")
    return found[0]


def _check_right(act: Act, record: Record) -> None:
    """Weighty records need the right that what comes of it needs."""
    if act.job.effect(record) == MISFIT:
        return
    for group in rights_to_take_back(record) or ():
        act.needs(group[0])


def _check_closing(act: Act, record: Record, points: Sequence[Point]) -> None:
    """A job is not closed by the back door while something is open."""
    restored = act.job.of_ref(str(record.body.get("record", ""))) if record.typ == "record.voided" else []
    closes = record.typ == "job.reopened" or any(one.typ == CLOSES for one in restored)
    standing = sum(point.state == OPEN for point in points)
    if closes and standing:
        refuse(f"This would close job {act.job.number} over {standing} open points.", "Clear them, then close it.")


TAKE_BACK = Deed(
    name="job take-back", about=JOB, do=take_back, writes=("record.voided",),
    says="Take a record back; what it had replaced holds again. Nothing is removed.",
    example="J7K3M00018 J7K3M00018:t7k3m9~0:14:1a2b3c4d --why 'wrong bolt circle' --by MK",
    done="Taken back: {ref}",
    fields=(Field("ref", says="name of the record, as commands and job log print it", sort=RECORD, first=True),
            Field("points", sort=HANDED_IN),
            Field("why", says="the reason", needed=True)),
)  # fmt: skip
