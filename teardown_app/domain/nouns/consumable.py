"""Questions about a consumable: its rule, what opens it, what is due."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.nouns.job import Job

ALWAYS, IF_OPENED, ON_CONDITION = "always", "if opened", "on condition"


def rule_of(position: Position) -> str:
    """always, if opened or on condition."""
    return position.line.renew or ALWAYS


def openers(job: Job, position: Position) -> list[str]:
    """Places whose opening reaches the consumable: what it closes over, what closes over it,
    and, where the bill gives no order, its neighbours."""
    if position.key not in job.bill.positions:
        return []
    keys = [*job.bill.closes_over(position.key), *job.bill.closed_by(position.key)]
    if keys:
        return keys
    return [one.key for one in job.children(position.parent) if one.line.kind in ("part", "assembly")]


def openings(job: Job, position: Position) -> list[Entry]:
    """Takings-off and takings-out that opened it."""
    things = [position_thing(key) for key in openers(job, position)]
    return [entry for thing in things for facet in ("came_out", "taken_out") for entry in job.entries(thing, facet)]


def expired(head: Entry) -> bool:
    """True when the expiry had passed by the record's own clock; a wrong clock proves nothing."""
    expiry = head.value.get("expiry", "")
    return bool(expiry) and (head.record.clk != "ok" or head.record.wall[:10] > expiry)


def what_is_due(job: Job, position: Position) -> str:
    """What is wrong with a consumable, empty when nothing is."""
    rule = rule_of(position)
    opened = openings(job, position)
    if rule == IF_OPENED and not opened:
        return ""
    thing = position_thing(position.key)
    heads = job.heads(thing, "renewal")
    if not heads or job.value(thing, "renewal") is None:
        return "is not renewed"
    if any(expired(head) for head in heads):
        return "was renewed with an expired lot"
    if rule == ON_CONDITION:
        return ""
    if any(head.value["as"] != "renewed" for head in heads):
        return "was kept and has to be renewed"
    if any(not job.knowing.knew(head.record, one.record) for head in heads for one in opened):
        return "was opened since it was renewed"
    return ""
