"""The table of acts: what a record does, which right its author needs, and who may take it back.

One row an act, in the order of the table in `docs/formats/records.md`. A record falls under each row whose condition it
meets. What depends on more than the record (a protective check, an origin that was borrowed) is asked elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple, cast

from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import Draft, Record

Meets = Callable[[Record], bool]

Needed = tuple[tuple[str, ...], ...]
"""Rights that are needed: of each group one."""

SAME, NO, ASKS, ANEW = "same", "no", "asks", "said anew"
"""Of taking back: the right of making; never; the right of making, and it narrows; never, a new record replaces it."""

ANYBODY, AS_TARGET = "anybody", "as this column of its target"
"""Rights of making that name none."""

ACCEPTING = "to be accepted|"
"""How the key of a concession begins that accepts a narrowing."""


class Row(NamedTuple):
    """One act. `of` says of each kind of record when it is this act; `right` what its author needs, `instead` what he
    needs where that is met; `taken_back` what taking it back needs; `accepts` the second right where it narrows;
    `asks` when it asks though the row does not."""

    act: str
    of: dict[str, Meets]
    right: str
    taken_back: str
    accepts: str = ""
    instead: tuple[tuple[Meets, tuple[str, ...]], ...] = ()
    asks: Meets | None = None

    def asks_by(self, record: Record) -> bool:
        """Does a record of this row make something due?"""
        return self.taken_back == ASKS or (self.asks is not None and self.asks(record))


def _always(record: Record) -> bool:
    return True


def _each(*kinds: str) -> dict[str, Meets]:
    return dict.fromkeys(kinds, _always)


def _names(*fields: str) -> Meets:
    """The body holds one of these fields."""
    return lambda record: any(name in record.body for name in fields)


def _says(field: str, *words: str) -> Meets:
    return lambda record: record.body.get(field) in words


def _not(meets: Meets) -> Meets:
    return lambda record: not meets(record)


def _either(*conditions: Meets) -> Meets:
    return lambda record: any(meets(record) for meets in conditions)


def _above(field: str) -> Meets:
    """The number is above zero."""
    return lambda record: _number(record, field) > 0


def _below(field: str) -> Meets:
    """The number is below zero."""
    return lambda record: _number(record, field) < 0


def _number(record: Record, field: str) -> int:
    worth = record.body.get(field, 0)
    return worth if isinstance(worth, int) else 0


def _accepts_a_narrowing(record: Record) -> bool:
    return str(record.body.get("key", "")).startswith(ACCEPTING)


def _is_early(record: Record) -> bool:
    return bool(record.body.get("early"))


_AMENDED = ("order", "name", "serial", "due")
_FIRST_SAID = ("part_number", "set_mark", "condition", "written", "out_of", "origin", "owner", "meant_for")
_IN = _says("as", "received complete", "received short")
_SCRAP, _ACCEPT = _says("as", "scrap"), _says("verdict", "accept")
_REGISTERS = ("place.given", "carrier.given", "pin.enrolled")
_LABELS = tuple(typ for typ in KINDS if typ.startswith("label."))

ROWS = (
    Row("job opened", _each("job.opened"), "office", NO),
    Row("options amended", {"job.amended": _names("options")}, "office", SAME),
    Row("order, name, serial, due amended", {"job.amended": _names(*_AMENDED)}, "office", SAME),
    Row("rules raised", {"job.amended": _names("rules")}, "office", NO),
    Row("signed", _each("work.signed"), "sign", NO),
    Row("closed", _each("job.closed"), "sign", NO),
    Row("reopened", _each("job.reopened"), "office", NO),
    Row("received complete, short", {"configuration.received": _IN}, "record", ASKS),
    Row("scope out, left", {"configuration.received": _not(_IN)}, "record", SAME, "office"),
    Row("line added", _each("line.added"), "record", ASKS),
    Row("photograph, put, label, relabel",
        {**_each("photo.taken", "thing.put", "part.tagged", "part.renumbered"),
         "part.noted": _names("number", "place", "note")}, "record", SAME),
    Row("conceded", _each("point.conceded"), "concede", SAME,
        instead=((_accepts_a_narrowing, ("concede", "release", "office")),)),
    Row("taken back", _each("record.voided"), AS_TARGET, NO, "release"),
    Row("taken off, extra piece, brought in", _each("part.taken_off", "part.brought_in"), "record", ASKS, "release"),
    Row("same as", _each("part.same_as"), "record", ASKS, "release"),
    Row("noted, first said", {"part.noted": _names(*_FIRST_SAID)}, "record", SAME, "release"),
    Row("noted, said otherwise",
        {"part.noted": _names("part_number", "out_of", "origin", "set_mark")}, "record", SAME, "release"),
    Row("noted owner or borrowed, said otherwise", {"part.noted": _names("owner")}, "record", "office", "office"),
    Row("finding", _each("finding.noted"), "record", ASKS, "office"),
    Row("answer", _each("approval.given"), "office", SAME),
    Row("disposition scrap", {"disposition.given": _SCRAP}, "scrap", "scrap"),
    Row("other disposition", {"disposition.given": _not(_SCRAP)}, "record", "release"),
    Row("hold", _each("hold.placed"), "record", "release"),
    Row("lifted, released, skipped, wait over",
        _each("hold.lifted", "part.released", "operation.skipped", "wait.over"), "release", SAME),
    Row("handed over, given back", _each("goods.handed_over", "goods.given_back"), "office", SAME),
    Row("taken over", _each("goods.taken_over"), "record", "office"),
    Row("reject, inconclusive, not possible",
        {"check.read": _not(_ACCEPT), **_each("check.not_possible")}, "record", ASKS),
    Row("accept", {"check.read": _ACCEPT}, "record", SAME, "release"),
    Row("begun, stopped", _each("operation.started", "operation.stopped"), "record", ASKS),
    Row("done", _each("operation.done"), "record", SAME, "release"),
    Row("fitted", _each("part.fitted"), "record", SAME, "office"),
    Row("taken out, joint opened, screw taken out",
        {**_each("part.taken_out", "joint.opened"), "hardware.moved": _below("put_in")}, "record", ASKS),
    Row("counted", _each("hardware.counted"), "record", ASKS, "release"),
    Row("added, put in", {"hardware.moved": _either(_names("added"), _above("put_in"))}, "record", SAME,
        instead=((_below("added"), ("office",)),), asks=_above("added")),
    Row("scrapped, left over", {"hardware.moved": _either(_above("scrapped"), _above("left_over"))}, "record", SAME),
    Row("lost, found short",
        {"hardware.moved": _either(_above("lost"), _above("found_short"))}, "record", SAME, "release"),
    Row("torqued", _each("joint.torqued"), "record", SAME, instead=((_is_early, ("release",)),)),
    Row("renewed, kept", _each("consumable.renewed"), "record", SAME),
    Row("temporary in", _each("temporary.in"), "record", NO),
    Row("temporary out", _each("temporary.out"), "record", ASKS),
    Row("instrument given", _each("instrument.given"), "office", ANEW),
    Row("instrument found out", _each("instrument.found_out"), "release", ANEW),
    Row("instrument cleared", _each("instrument.cleared"), "release", ANEW),
    Row("person, founding joined, tablet retired",
        _each("person.given", "founding.joined", "tablet.retired"), "office", ANEW),
    Row("clock confirmed", _each("clock.confirmed"), "release", NO),
    Row("place, carrier, PIN, label queue", _each(*_REGISTERS, *_LABELS), "record", ANEW),
    Row("numbers issued", _each("numbers.issued"), ANYBODY, ANEW),
)  # fmt: skip

_ROWS_OF: dict[str, tuple[Row, ...]] = {typ: tuple(row for row in ROWS if typ in row.of) for typ in KINDS}


def rows(record: Record) -> list[Row]:
    """Every row that the record falls under."""
    return [row for row in _ROWS_OF.get(record.typ, ()) if row.of[record.typ](record)]


def asks(record: Record) -> bool:
    """True for a record that makes something due: taking it back narrows."""
    return any(row.asks_by(record) for row in rows(record))


def right_for(record: Record) -> Needed:
    """What the author of a record needs, whatever it takes back. An act that no row names needs the kind's right."""
    needed = {_needed(row, record) for row in rows(record)} or {(KINDS[record.typ].right,)}
    return tuple(sorted(needed - {(ANYBODY,), (AS_TARGET,)}))


def _needed(row: Row, record: Record) -> tuple[str, ...]:
    return next((rights for meets, rights in row.instead if meets(record)), (row.right,))


def rights_to_take_back(record: Record, *, was_borrowed: bool = False) -> Needed | None:
    """What taking a record back needs, None where it is not taken back. `was_borrowed`: the record notes another origin
    than *borrowed*, which its author had seen said of the part."""
    found = rows(record)
    words = [row.taken_back for row in found]
    if NO in words or ANEW in words:
        return None
    needed: set[tuple[str, ...]] = {(word,) for word in words if word not in (SAME, ASKS)}
    if not words or SAME in words or ASKS in words:
        needed.update(right_for(record))
    if was_borrowed and record.typ == "part.noted" and "origin" in record.body:
        needed.add(("office",))
    return tuple(sorted(needed))


NEVER_CLEARS = ("job.opened", "instrument.found_out")
"""Acts that need more than *record* and can clear nothing: opening a job, finding out about an instrument."""


def asks_pin(draft: Draft, target: Record | None = None) -> bool:
    """True for an act that needs more than the right to record and can clear something: its person's PIN is asked.
    `target` is what a taking back takes back. What is only called or dated otherwise clears nothing."""
    if draft.typ in NEVER_CLEARS or (draft.typ == "job.amended" and not {"options", "rules"} & draft.body.keys()):
        return False
    needed = rights_to_take_back(target) if target is not None else right_for(cast(Record, draft))
    return any("record" not in group for group in needed or ())
