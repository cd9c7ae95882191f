"""Witness: the table of acts: what right an act needs, what right its taking back, and which acts ask.

Written from `docs/formats/records.md` (Acts) alone, row by row and in its order.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from teardown_app.domain.ledger.record import Record

Meets = Callable[[Record], bool]

ACCEPTING = "to be accepted|"
"""How the key of a concession begins that accepts a narrowing."""

_OF_THE_SHOP = ("place", "carrier", "pin", "label")
SAME, NO, ASKS = "same", "no", "asks"
FIRST_SAID = ("part_number", "set_mark", "condition", "written", "out_of", "origin", "owner", "meant_for")


class Row(NamedTuple):
    """A row: its condition, the right of making, and the column *taken back*."""

    name: str
    meets: Meets
    right: str
    back: str


def _is(*kinds: str) -> Meets:
    return lambda record: record.typ in kinds


def _with(typ: str, *fields: str) -> Meets:
    """A kind with one of these fields."""
    return lambda record: record.typ == typ and any(name in record.body for name in fields)


def _as(typ: str, *words: str) -> Meets:
    return lambda record: record.typ == typ and record.body.get("as") in words


def _as_other(typ: str, *words: str) -> Meets:
    return lambda record: record.typ == typ and record.body.get("as") not in words


def _moves(name: str, sign: int) -> Meets:
    """hardware.moved with this above (1) or below (-1) zero."""
    return lambda record: record.typ == "hardware.moved" and _number(record, name) * sign > 0


def _number(record: Record, name: str) -> int:
    worth = record.body.get(name, 0)
    return worth if isinstance(worth, int) else 0


def _any(*conditions: Meets) -> Meets:
    return lambda record: any(each(record) for each in conditions)


def _is_graver(record: Record) -> bool:
    """A reject, inconclusive or not possible."""
    bad = record.typ == "check.read" and record.body.get("verdict") != "accept"
    return bad or record.typ == "check.not_possible"


def _puts_in(record: Record) -> bool:
    """ "hardware.moved with `added`, or `put_in` above zero"; what is added above zero is a row of its own here."""
    if record.typ != "hardware.moved" or _number(record, "added") < 0:
        return False
    return _number(record, "put_in") > 0 or ("added" in record.body and _number(record, "added") == 0)


ROWS = (
    Row("job opened", _is("job.opened"), "office", NO),
    Row("options amended", _with("job.amended", "options"), "office", SAME),
    Row("order, name, serial, due amended", _with("job.amended", "order", "name", "serial", "due"), "office", SAME),
    Row("rules raised", _with("job.amended", "rules"), "office", NO),
    Row("signed", _is("work.signed"), "sign", NO),
    Row("closed", _is("job.closed"), "sign", NO),
    Row("reopened", _is("job.reopened"), "office", NO),
    Row("received complete, short", _as("configuration.received", "received complete", "received short"),
        "record", ASKS),
    Row("scope out, left", _as_other("configuration.received", "received complete", "received short"),
        "record", SAME),
    Row("line added", _is("line.added"), "record", ASKS),
    Row("photograph, put, label, relabel", _is("photo.taken", "thing.put", "part.tagged", "part.renumbered"),
        "record", SAME),
    Row("relabel noted", _with("part.noted", "number", "place", "note"), "record", SAME),
    Row("conceded", _is("point.conceded"), "concede", SAME),
    Row("taken off, extra piece, brought in", _is("part.taken_off", "part.brought_in"), "record", ASKS),
    Row("same as", _is("part.same_as"), "record", ASKS),
    Row("noted, first said", _with("part.noted", *FIRST_SAID), "record", SAME),
    Row("noted owner, said otherwise", _with("part.noted", "owner"), "record", "office"),
    Row("finding", _is("finding.noted"), "record", ASKS),
    Row("answer", _is("approval.given"), "office", SAME),
    Row("disposition scrap", _as("disposition.given", "scrap"), "scrap", "scrap"),
    Row("other disposition", _as_other("disposition.given", "scrap"), "record", "release"),
    Row("hold", _is("hold.placed"), "record", "release"),
    Row("lifted, released, skipped, wait over",
        _is("hold.lifted", "part.released", "operation.skipped", "wait.over"), "release", SAME),
    Row("handed over, given back", _is("goods.handed_over", "goods.given_back"), "office", SAME),
    Row("taken over", _is("goods.taken_over"), "record", "office"),
    Row("reject, inconclusive, not possible", _is_graver, "record", ASKS),
    Row("accept", lambda record: record.typ == "check.read" and not _is_graver(record), "record", SAME),
    Row("begun, stopped", _is("operation.started", "operation.stopped"), "record", ASKS),
    Row("done", _is("operation.done"), "record", SAME),
    Row("fitted", _is("part.fitted"), "record", SAME),
    Row("taken out, joint opened, screw taken out",
        _any(_is("part.taken_out", "joint.opened"), _moves("put_in", -1)), "record", ASKS),
    Row("counted", _is("hardware.counted"), "record", ASKS),
    Row("added", _moves("added", 1), "record", ASKS),
    Row("put in", _puts_in, "record", SAME),
    Row("added below zero", _moves("added", -1), "office", SAME),
    Row("scrapped, left over", _any(_moves("scrapped", 1), _moves("left_over", 1)), "record", SAME),
    Row("lost, found short", _any(_moves("lost", 1), _moves("found_short", 1)), "record", SAME),
    Row("torqued", lambda record: record.typ == "joint.torqued" and not record.body.get("early"), "record", SAME),
    Row("torqued early", lambda record: record.typ == "joint.torqued" and bool(record.body.get("early")),
        "release", SAME),
    Row("renewed, kept", _is("consumable.renewed"), "record", SAME),
    Row("temporary in", _is("temporary.in"), "record", NO),
    Row("temporary out", _is("temporary.out"), "record", ASKS),
    Row("instrument given", _is("instrument.given"), "office", NO),
    Row("instrument found out, cleared", _is("instrument.found_out", "instrument.cleared"), "release", NO),
    Row("person, founding joined, tablet retired", _is("person.given", "founding.joined", "tablet.retired"),
        "office", NO),
    Row("clock confirmed", _is("clock.confirmed"), "release", NO),
    Row("place, carrier, PIN, label queue", lambda record: record.typ.partition(".")[0] in _OF_THE_SHOP,
        "record", NO),
    Row("numbers issued", _is("numbers.issued"), "", NO),
)  # fmt: skip
"""Of a noted origin that was borrowed, and of a protective reading, `naive_entries.py` knows more."""


def rows(record: Record) -> list[Row]:
    """ "A record falls under each row whose condition it meets."."""
    return [row for row in ROWS if row.meets(record)]


def of_making(record: Record) -> list[tuple[str, ...]]:
    """Rights its author needs: of each entry one. What no row speaks of needs what the table of kinds says."""
    if record.typ == "point.conceded" and str(record.body.get("key", "")).startswith(ACCEPTING):
        return [("concede", "release", "office")]
    if record.typ == "record.voided":
        return []
    found = {row.right for row in rows(record)} or {"office" if record.typ == "job.amended" else "record"}
    return [(right,) for right in sorted(found) if right]


def of_taking_back(record: Record) -> list[tuple[str, ...]] | None:
    """Rights that taking this record back needs, "for every row"; None where a row says *no* or *said anew*."""
    found = rows(record)
    if any(row.back == NO for row in found):
        return None
    kept = [(row.back,) for row in found if row.back not in (SAME, ASKS)]
    made = of_making(record) if not found or any(row.back in (SAME, ASKS) for row in found) else []
    return [*made, *kept]


def asks(record: Record) -> bool:
    """Whether "the column *taken back* of `records.md` says *asks*"."""
    return any(row.back == ASKS for row in rows(record))
