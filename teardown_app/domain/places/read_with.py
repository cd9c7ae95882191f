"""What a reading was taken with, and whether it was time for it: its instrument is one of the register in date, a
second look comes when its hours are over."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.parts.instrument import in_use_for
from teardown_app.domain.parts.naming import day_named
from teardown_app.domain.parts.routing import Moment, hours_left
from teardown_app.domain.places.reading_ground import AGAIN, reading_of


def unfit_instrument(job: Job, check: Check, entry: Entry) -> str:
    """Why the instrument of a reading does not serve; empty when it does, or where the register, as it was for its
    author, has none in use for this check."""
    known = in_use_for(job, entry.record, check.instrument)
    if not known:
        return ""
    number, record = entry.value.instrument, entry.record
    if number not in known:
        return f"{number.strip() or 'no instrument'} is not one of the shop's in use for {check.instrument.strip()}"
    if record.clk != "ok":
        return f"the tablet's clock was not right, so nobody can say whether instrument {number} was in date"
    late = [one.due for one in known[number] if one.due and one.due < record.wall[:10]]
    return f"instrument {number} was due on {day_named(min(late))}" if late else ""


def is_too_soon(job: Job, check: Check, entry: Entry) -> bool:
    """True for a second look that lies, by clocks that are right, not its hours after every first one that nobody
    replaced, or whose author had seen none of these."""
    name, spot, when = reading_of(entry)
    if check.again_h is None or not when.endswith(AGAIN):
        return False
    record = entry.record
    moment = Moment(record.dev, record.wall, record.clk)
    first = first_looks(job, entry.thing, name, spot, when.removesuffix(AGAIN))
    has_seen = any(job.knowing.knew(record, one.record) for one in first)
    return not has_seen or any(hours_left(one, float(check.again_h), moment) > 0 for one in first)


def first_looks(job: Job, thing: str, check: str, spot: str, first: str) -> list[Entry]:
    """Readings of the first time that nobody replaced: after each of them the second look waits its hours."""
    return [one for one in job.heads(thing, check_facet(check, spot, first)) if one.record.typ == "check.read"]
