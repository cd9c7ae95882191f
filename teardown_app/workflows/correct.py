"""A record is taken back by a new one that names it; nothing is changed or removed."""

from __future__ import annotations

from teardown_app.domain.job.job import JOB
from teardown_app.domain.ledger.acts import right_for, rights_to_take_back
from teardown_app.domain.ledger.effect import MISFIT, VOIDED
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.signed.signing import closing_stands
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.deed import RECORD, REFERENCE, Deed, Field

LASTING = {typ: kind.lasting for typ, kind in KINDS.items() if kind.lasting}
"""Kinds that are not taken back, and what a record of them is called: the opposite is recorded.
What does not fit is, but a taking back."""


def take_back(act: Act, ref: str, *, why: str, reference: str = "") -> Drafts:
    """Takes a record back. Of what it had replaced verdicts are given again; the rest holds again."""
    record = _record(act, ref)
    if closing_stands(act.job):
        refuse(f"Job {act.job.number} is closed.", "Reopen it with a reason first.")
    if record.typ == "record.voided" or (act.job.effect(record) != MISFIT and rights_to_take_back(record) is None):
        refuse(f"{LASTING.get(record.typ, 'This')} is not taken back.", "Record the opposite.")
    if act.job.effect(record) == VOIDED and any(one.act == act.by for one in act.job.takings_back(record)):
        refuse("You took it back already.", "Record it again, if it was right after all.")
    if not why.strip():
        refuse("Taking back needs its reason.", "Say why.")
    _check_right(act, record)
    return [act.draft("record.voided", record.ent, record=record.ref, why=why, reference=reference.strip() or None)]


def _record(act: Act, ref: str) -> Record:
    found = act.job.of_ref(ref) or [one for one in act.job.records.values() if one.h.startswith(ref)]
    if len(found) != 1 or len(ref) < 8:
        refuse(f"There is no record {ref} in job {act.job.number}.", "Take its name from the log.", "job log")
    return found[0]


def _check_right(act: Act, record: Record) -> None:
    """Weighty records need the right that what comes of it needs; what does not fit, that of its act."""
    is_misfit = act.job.effect(record) == MISFIT
    for group in right_for(record) if is_misfit else rights_to_take_back(record) or ():
        act.needs(group[0])


TAKE_BACK = Deed(
    name="job take-back", about=JOB, do=take_back, writes=("record.voided",),
    says="Take a record back; verdicts it had replaced are given again. Nothing is removed.",
    example="J7K3M00018 J7K3M00018:t7k3m9~0:14:1a2b3c4d --why 'wrong bolt circle' --by MK",
    done="Taken back: {ref}",
    fields=(Field("ref", says="name of the record, as commands and job log print it", sort=RECORD, first=True),
            Field("why", says="the reason", needed=True),
            REFERENCE),
)  # fmt: skip
