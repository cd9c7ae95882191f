"""Kinds of the shop's own journal: people, places, carriers, numbers issued, labels queued and printed."""

from __future__ import annotations

from teardown_app.domain.ledger.kinds.kind import (
    BACK,
    LIST,
    NUMBERS_OR_NOT,
    TABLE_OR_NOT,
    TEXT,
    TEXT_OR_NOT,
    THINGS,
    WHOLE,
    Field,
    Kind,
    Write,
    Writes,
)
from teardown_app.domain.ledger.kinds.registers import (
    FoundOut,
    Instrument,
    Issued,
    Kept,
    Label,
    Person,
    Registered,
    told,
)
from teardown_app.domain.ledger.record import Record

WAITING, SENT, PRINTED, DROPPED = "waiting", "sent", "printed", "dropped"
"""How far a label is. One that was sent and of which nothing else is recorded was perhaps printed."""


def _register(
    typ: str,
    about: str,
    facet: str,
    key: str,
    right: str,
    fields: dict[str, Field],
    *,
    reach: str = THINGS,
    sort: type[Registered],
) -> Kind:
    """A kind whose records each give the latest word on one entry of a register."""

    def write(record: Record) -> list[Write]:
        return [(f"{facet}:{record.body[key]}", facet, told(sort, record.body))]

    return Kind(typ, about, right, fields, (facet,), write, shop=True, reach=reach)


def _found_out(record: Record) -> list[Write]:
    return [("instrument:" + record.body["number"], "found_out", FoundOut.told(record.body))]


def _cleared(record: Record) -> list[Write]:
    return [("instrument:" + record.body["number"], "cleared", record.body["record"])]


def _numbers_issued(record: Record) -> list[Write]:
    body = record.body
    return [("numbers:" + body["letters"], "issued", Issued(body["letter"], body["next"]))]


def _label(stands: str) -> Writes:
    """What a record says of each label it names: how far it is on its way to paper."""

    def write(record: Record) -> list[Write]:
        body = {**{name: record.body[name] for name in _TOLD if name in record.body}, "as": stands}
        label = Label(stands, body.get("job", ""), body.get("why", ""), body.get("where", ""), body)
        return [("number:" + number, "label", label) for number in record.body["numbers"]]

    return write


_TOLD = ("job", "why", "where")


def joined_founding(name: str) -> str:
    """Thing name of a founding (`_shop:t7k3m9~0:1:0a1b2c3d`) that others joined."""
    return "founding:" + name


def retired_journal(tablet: str, journal: str) -> str:
    """Thing name of what a tablet (`t7k3m9~0`) wrote in a journal (a job's number or `_shop`)."""
    return f"tablet:{tablet}/{journal}"


def _joined(record: Record) -> list[Write]:
    return [(joined_founding(record.body["founding"]), "joined", record.body["founding"])]


def _retired(record: Record) -> list[Write]:
    """After which number nothing is to come, and which before it were lost."""
    last, without = record.body["last"], sorted({*record.body.get("without", ())})
    if last < 0:
        raise ValueError("the last number is below zero")
    if any(not 0 < number <= last for number in without):
        raise ValueError("what it names as lost lies not between 1 and the last number")
    value = {"last": last, "without": without}
    return [(retired_journal(record.body["tablet"], record.body["journal"]), "retired", value)]


def _label_voided(record: Record) -> list[Write]:
    return [("number:" + record.body["number"], "label_voided", record.body["why"])]


KINDS = (
    _register(
        "person.given",
        "a person, by code",
        "person",
        "code",
        "office",
        {
            "code": TEXT,
            "rights": LIST,
            "until": TEXT_OR_NOT,
            "qualifications": TABLE_OR_NOT,
            "badge": TEXT_OR_NOT,
            "revoked": Field(bool, needed=False),
        },
        sort=Person,
    ),
    _register(
        "place.given",
        "a place",
        "known_place",
        "name",
        "record",
        {"name": TEXT, "number": TEXT_OR_NOT, "note": TEXT_OR_NOT, "out": Field(bool, needed=False)},
        sort=Kept,
    ),
    _register(
        "carrier.given",
        "a carrier",
        "carrier",
        "number",
        "record",
        {"name": TEXT, "number": TEXT, "places": TABLE_OR_NOT, "out": Field(bool, needed=False)},
        sort=Kept,
    ),
    _register(
        "instrument.given",
        "a measuring instrument, by its number",
        "instrument",
        "number",
        "office",
        {
            "number": TEXT,
            "reads": TEXT,
            "name": TEXT_OR_NOT,
            "unit": TEXT_OR_NOT,
            "low": TEXT_OR_NOT,
            "high": TEXT_OR_NOT,
            "resolution": TEXT_OR_NOT,
            "uncertainty": TEXT_OR_NOT,
            "calibrated": TEXT_OR_NOT,
            "due": TEXT_OR_NOT,
            "out": Field(bool, needed=False),
        },
        reach=BACK,
        sort=Instrument,
    ),
    Kind(
        "instrument.found_out",
        "a measuring instrument that read wrongly since a day",
        "release",
        {"number": TEXT, "by": TEXT, "last_good": TEXT, "why": TEXT},
        ("found_out",),
        _found_out,
        shop=True,
        reach=BACK,
    ),
    Kind(
        "instrument.cleared",
        "a measuring instrument that was found out by mistake",
        "release",
        {"number": TEXT, "record": TEXT, "why": TEXT},
        ("cleared",),
        _cleared,
        shop=True,
        reach=BACK,
    ),
    Kind(
        "pin.enrolled",
        "a person who chose a PIN on this tablet; nothing of the PIN itself",
        "record",
        {"code": TEXT, "why": TEXT},
        (),
        lambda record: [],
        shop=True,
    ),
    Kind(
        "founding.joined",
        "the founding of another shop, whose tablets count here from now on",
        "office",
        {"founding": TEXT, "why": TEXT},
        ("joined",),
        _joined,
        shop=True,
        reach=BACK,
    ),
    Kind(
        "tablet.retired",
        "a tablet of which nothing more is to come after a number",
        "office",
        {"tablet": TEXT, "journal": TEXT, "last": WHOLE, "without": NUMBERS_OR_NOT, "reference": TEXT},
        ("retired",),
        _retired,
        shop=True,
        reach=BACK,
    ),
    Kind(
        "clock.confirmed",
        "the tablet",
        "release",
        {"was": TEXT},
        (),
        lambda record: [],
        shop=True,
    ),
    Kind(
        "numbers.issued",
        "numbers of one letter",
        "record",
        {"letter": TEXT, "letters": TEXT, "first": WHOLE, "next": WHOLE, "count": WHOLE},
        ("issued",),
        _numbers_issued,
        shop=True,
    ),
    Kind(
        "label.queued",
        "labels that are to be printed, for the first time or again",
        "record",
        {"numbers": LIST, "job": TEXT_OR_NOT, "why": TEXT_OR_NOT},
        ("label",),
        _label(WAITING),
        shop=True,
    ),
    Kind(
        "label.sent",
        "labels that go to paper now; recorded before the first of them does",
        "record",
        {"numbers": LIST, "where": TEXT},
        ("label",),
        _label(SENT),
        shop=True,
    ),
    Kind(
        "label.printed",
        "labels that were handed to the printer or written, or that somebody saw printed",
        "record",
        {"numbers": LIST, "where": TEXT},
        ("label",),
        _label(PRINTED),
        shop=True,
    ),
    Kind(
        "label.dropped",
        "labels that are not printed any more",
        "record",
        {"numbers": LIST, "why": TEXT},
        ("label",),
        _label(DROPPED),
        shop=True,
    ),
    Kind(
        "label.voided",
        "a label that was spoiled or lost before it was put on anything",
        "record",
        {"number": TEXT, "why": TEXT},
        ("label_voided",),
        _label_voided,
        shop=True,
    ),
)
