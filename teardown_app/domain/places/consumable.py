"""Questions about a consumable: its rule, whether it is due, and why."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.ground import lying, stands_on
from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.entry import Entry, display_order
from teardown_app.domain.ledger.kinds.kind import is_said
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.parts.filling import lost_with
from teardown_app.domain.parts.naming import named, part_named
from teardown_app.domain.places.opening import before_renewal, openings, renewal_stands
from teardown_app.domain.places.place import fits_place

ALWAYS, IF_OPENED, ON_CONDITION = "always", "if opened", "on condition"


def rule_of(position: Position) -> str:
    """always, if opened or on condition."""
    return position.line.renew or ALWAYS


def is_expired(head: Entry) -> bool:
    """True when the expiry, a day, had passed by the record's own clock; a wrong clock proves nothing."""
    expiry = head.value.expiry or ""
    return bool(expiry) and (head.record.clk != "ok" or head.record.wall[:10] > expiry)


def not_written(job: Job, position: Position, head: Entry) -> list[str]:
    """What a renewal lacks of lot and serial that the bill asks for, and of the expiry that a shelf life asks for."""
    component = job.bill.components.get(head.value.part_number or position.line.part_number)
    wanted = [*position.line.write_down, *(["expiry"] if component and component.shelf_life_days else [])]
    return [name for name in wanted if not is_said(head.value.body.get(name))]


def what_is_due(job: Job, position: Position) -> str:
    """What is wrong with a consumable, as it follows its name in a sentence; empty when nothing is."""
    key, rule = position.key, rule_of(position)
    if rule == IF_OPENED and not lying(job, openings(job, key)):
        return ""
    heads = job.heads(position_thing(key), "renewal")
    if not heads:
        return " is not renewed."
    if job.differs(position_thing(key), "renewal"):
        return ": two renewals differ. Look which is right, or renew it."
    return next((wrong for head in heads if (wrong := _wrong_with(job, position, head))), "")


def _wrong_with(job: Job, position: Position, head: Entry) -> str:
    """Of what is wrong with one renewal the first that is found, empty when it counts."""
    word, key = head.value.word, position.key
    if is_expired(head):
        return ": renewed with an expired lot."
    if word == "kept" and rule_of(position) != ON_CONDITION:
        return ": kept; it has to be renewed."
    again = "Look again, or renew it." if rule_of(position) == ON_CONDITION else "Renew it."
    if unit := lost_with(job, head.record, key):
        return f": {word} in {part_named(job, unit)}, which is gone. {again}"
    if not renewal_stands(job, head.record, key):
        since = min(
            (one for one in before_renewal(job, key) if not stands_on(job, head.record, [one])), key=display_order
        )
        return f": {_opened(job, since)} after it was {word}. {again}"
    number = head.value.part_number
    if word == "renewed" and number and not fits_place(job, position, number):
        return f": renewed with {number}, which does not fit."
    lacking = not_written(job, position, head) if word == "renewed" else []
    why = "; its part number has a shelf life" if lacking == ["expiry"] else ""
    return f": renewed without {' and '.join(lacking)}{why}." if lacking else ""


def _opened(job: Job, record: Record) -> str:
    """What an opening or fitting was, for a sentence."""
    if record.typ in ("joint.opened", "hardware.moved"):
        return f"{named(job, record.ent[0][1:])} was opened"
    place = record.ent[1][1:] if len(record.ent) > 1 and is_position(record.ent[1]) else ""
    came = "was fitted" if record.typ == "part.fitted" and not job.takings_back(record) else "came off"
    return f"{named(job, place or str(record.body.get('out_of', '')))} {came}"
