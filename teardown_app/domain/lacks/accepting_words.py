"""What is to be accepted, in words: what somebody says, and against what."""

from __future__ import annotations

from teardown_app.domain.job.accepting import FACTS, SAYS_FACTS
from teardown_app.domain.job.job import Job
from teardown_app.domain.job.measured import Narrowing
from teardown_app.domain.ledger.facets import FACETS
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.kinds.work import Reading
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.life import deed_of
from teardown_app.domain.signed.narrowed_facts import narrowed_from


def words_of(job: Job, one: Narrowing) -> str:
    """What a narrowing says: `TB says not on this tool`, `came out of 30.10, now 30.20`."""
    record = one.record
    if record.typ in SAYS_FACTS:
        return _facts(job, one)
    if record.typ == "check.read":
        return _reading(one)
    narrows = KINDS[record.typ].narrows
    if narrows:
        return narrows.format_map({**record.body, "act": record.act, "missed": _missed(record)})
    return f"{record.act} {deed_of(record)}"


def _facts(job: Job, one: Narrowing) -> str:
    said, body = [], one.record.body
    for fact in (name for name in FACTS if name in body):
        before = narrowed_from(job, one.subject, one.record, fact)
        said += [f"{FACETS[fact].fact} {' or '.join(before)}, now {body[fact]}"] if before else []
    released = (entry.record for entry in job.entries(one.subject, "released"))
    since = ", changed since its release" if any(job.knowing.knew(one.record, each) for each in released) else ""
    return "; ".join(said) + since


def _reading(one: Narrowing) -> str:
    read = Reading.told(one.record.body)
    before = sorted({f"{entry.value.verdict} ({entry.record.act})" for entry in one.over})
    spot = f" at {read.spot}" if read.spot else ""
    then = f"then accept ({one.record.act}), nothing changed between"
    return f"{read.check}{spot} ({read.when}): {', '.join(before)}, {then}"


def _missed(record: Record) -> str:
    found = ((name.replace("_", " "), record.body.get(name, 0)) for name in ("lost", "found_short"))
    return ", ".join(f"{number} {name}" for name, number in found if number > 0)
