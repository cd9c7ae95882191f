"""A record is taken back by a new one that names it; nothing is changed or removed."""

from __future__ import annotations

from teardown_app.domain.effect import MISFIT, VOIDED, undoing_right
from teardown_app.domain.kinds import KINDS
from teardown_app.domain.record import Record
from teardown_app.workflows.act import Act, Drafts, refuse

LASTING = ("job.opened",)
"""Kinds that cannot be taken back: everything else rests on them."""


def take_back(act: Act, ref: str, *, why: str) -> Drafts:
    """Takes a record back. What it had replaced holds again."""
    act.needs("record")
    record = _record(act, ref)
    if act.job.closed and record.typ != "job.closed":
        refuse(f"Job {act.job.number} is closed.", "Reopen it with a reason first.")
    if record.typ in LASTING:
        refuse("The opening of a job cannot be taken back.", "Amend it: job amend.")
    if act.job.effect(record) == VOIDED:
        refuse("It was taken back already.", "To restore it, take back the record that took it back.")
    if not why.strip():
        refuse("Taking back needs its reason.", "Say why.")
    _check_right(act, record)
    return [act.draft("record.voided", record.ent, record=record.ref, why=why)]


def _record(act: Act, ref: str) -> Record:
    found = act.job.of_ref(ref) or [one for one in act.job.records.values() if one.h.startswith(ref)]
    if len(found) != 1 or len(ref) < 8:
        refuse(f"There is no record {ref} in job {act.job.number}.", "Take its name from job log.")
    return found[0]


def _check_right(act: Act, record: Record) -> None:
    """Weighty records of others need the right that the milder entry needs."""
    kind = KINDS.get(record.typ)
    if kind is None or act.job.effect(record) == MISFIT:
        return
    right = undoing_right(record)
    if right and record.act != act.by:
        act.needs(right)
