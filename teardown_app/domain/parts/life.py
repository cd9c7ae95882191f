"""The life of a thing in sentences: what was recorded of it, in order."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.effect import VOIDED
from teardown_app.domain.ledger.entry import display_order
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Record, is_position
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.parts.parts import own_place, parts


class _Blank(dict[str, object]):
    """Fields that a record lacks read as nothing."""

    def __missing__(self, key: str) -> str:
        return "-"


def deed_of(record: Record) -> str:
    """What the author of a record did, without about what: `released it`."""
    kind = KINDS.get(record.typ)
    says = kind.says if kind else ""
    return (says or record.typ.replace(".", " ")).format_map(_Blank(record.body))


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
