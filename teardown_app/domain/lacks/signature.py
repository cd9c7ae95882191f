"""Signatures that do not stand any more, and what was found out after the job was closed."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.faulty import knows_thing
from teardown_app.domain.job.ground import records_of
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.lacks.lack import RECALL, SIGN_AGAIN, Lack, ToDo, Where, lack
from teardown_app.domain.ledger.kinds.registers import FoundOut
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.conceding import concessions
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import is_part, own_place
from teardown_app.domain.parts.recall import recalled
from teardown_app.domain.signed.signature_scope import signature_scope
from teardown_app.domain.signed.signing import found_out_in, is_stale


def signature_lacks(job: Job, thing: str) -> Iterator[Lack]:
    """One lack while something was signed and no signature on it stands."""
    if not is_stale(job, thing) or not knows_thing(job, thing):
        return
    place = thing.startswith("@")
    part = job.group(thing)[0] if is_part(job, thing) else ""
    key = thing[1:] if place else own_place(job, part) if part else ""
    wrong = f"{named(job, key) if key else 'The job'} has changed since it was signed."
    where = Where(thing.removeprefix("@"), key, part)
    yield lack(SIGN_AGAIN, where, wrong, to_do=ToDo("job sign", thing), ground=lambda: _ground(job, thing, where))


def _ground(job: Job, thing: str, where: Where) -> tuple[Record, ...]:
    """The signatures; where somebody conceded this, all that these and he had to see."""
    signatures = records_of(job.ever(thing, "signature"))
    if not concessions(job, SIGN_AGAIN, where.subject, ""):
        return signatures
    scope = list(signature_scope(job, thing))
    return (*signatures, *scope, *found_out_in(job, scope))


def recall_lacks(job: Job) -> Iterator[Lack]:
    """Instruments found out after closing that put readings or torques of the job in doubt."""
    for found, readings in recalled(job):
        told = FoundOut.told(found.body)
        wrong = f"Instrument {told.number} was found out by {told.by} after closing: {_counted(readings)}."
        yield lack(RECALL, Where(JOB), wrong, ground=(found,), which=found.ref)


def _counted(readings: int) -> str:
    return "1 reading" if readings == 1 else f"{readings} readings"
