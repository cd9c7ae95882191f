"""What an honest person does about each point of a place, of the job and of its records."""

from __future__ import annotations

from teardown_app.domain.ledger.record import SHOP, Record
from tests.open_points.naive_acts import of_taking_back
from tests.open_points.naive_hardware import WHOLE_PASSES
from tests.open_points.tablets import JOB
from tests.proof.clear_parts import agree
from tests.proof.honest import FOR_EVER, Honest

GONE = ("scrapped", "lost", "found_short", "left_over")


def balance(hand: Honest, key: str, which: str = "") -> None:
    """ "Count, put in what is missing, and say what became of the rest": all was found."""
    hardware, places = hand.witness.hardware, hand.witness.tool.places
    bag = [name[1:] for name in hardware.bag("@" + key)]
    here = [each for each in bag if each in places and places[each].kind == "hardware"]
    hand.say("hardware.counted", *(f"@{each}" for each in bag), found=sum(places[each].screws for each in here))
    for each in here:
        lacking = places[each].screws - hand.witness.hardware.put_in([f"@{each}"])
        if lacking:
            hand.say("hardware.moved", f"@{each}", put_in=lacking)
    rest = _sum(hand, bag, "added") - sum(_sum(hand, bag, name) for name in GONE)
    if rest > 0:
        hand.say("hardware.moved", f"@{key}", left_over=rest, why="spare")
    if rest < 0:
        hand.say("hardware.moved", f"@{key}", added=-rest)


def _sum(hand: Honest, keys: list[str], fact: str) -> int:
    return sum(entry.value for key in keys for entry in hand.witness.told.all(f"@{key}", fact))


def tighten(hand: Honest, key: str, which: str = "") -> None:
    """ "Tighten every screw in the order given and record each pass": with a new wrench, once more ahead of time."""
    place = hand.witness.tool.places[key]
    joint = place.line.joint
    assert joint is not None and joint.torque_nm is not None
    number = f"M8888{len(hand.tablet.view(SHOP)):04d}X"
    hand.shop("instrument.given", f"instrument:{number}", number=number, reads="torque wrench", due=FOR_EVER)
    for name in [*hand.witness.hardware.passes(joint), *WHOLE_PASSES]:
        share = 100 if name in WHOLE_PASSES else int(name)
        torque = {"text": f"{joint.torque_nm * share / 100:f}", "unit": "N m"}
        more = {"early": "as agreed"} if name == "again" else {}
        body = {"pass": name, "torque": torque, "screws": place.screws, "instrument": number, **more}
        hand.say("joint.torqued", f"@{key}", **body)


def renew(hand: Honest, key: str, which: str = "") -> None:
    """ "Fit a new one and record its lot and expiry.\""""
    hand.say("consumable.renewed", f"@{key}", as_="renewed", lot="7", serial="7", expiry=FOR_EVER)


def in_or_out(hand: Honest, subject: str, which: str) -> None:
    """Out for running; for shipping as its line says."""
    place = hand.witness.tool.places.get(subject)
    name, ships = (f"@{subject}", place.line.ships or "in") if place else (subject, "out")
    hand.say("temporary.out", name)
    if which == "shipping" and ships == "in":
        hand.say("temporary.in", name)


def give_back(hand: Honest, subject: str, which: str = "") -> None:
    """What was lent goes back, one by one."""
    name = f"@{subject}" if subject in hand.witness.tool.places else subject
    told = hand.witness.told
    gave, took, back = (told.all(name, fact) for fact in ("handed_over", "taken_over", "given_back"))
    owed = sum(entry.value.get("quantity", 1) for entry in [*gave, *took])
    for _ in range(owed - sum(entry.value.get("quantity", 1) for entry in back)):
        hand.say("goods.given_back", name, job=JOB, consent="K-1")


def agree_or_count(hand: Honest, subject: str, fact: str) -> None:
    """What two say differently of a place or part is said once more."""
    if fact == "found":
        balance(hand, subject)
    elif fact == "renewal":
        renew(hand, subject)
    else:
        agree(hand, subject, fact)


def accept(hand: Honest, subject: str, which: str) -> None:
    """ "Accept it.\""""
    key = f"to be accepted|{subject}|{which}"
    hand.concede(next(each for each in hand.points() if each.key == key))


def sign(hand: Honest, subject: str, which: str = "") -> None:
    """It is signed again."""
    hand.sign(f"@{subject}" if subject in hand.witness.tool.places else subject)


def notice(hand: Honest, subject: str, which: str) -> None:
    """ "Send the notice and concede this with its reference.\""""
    hand.concede(next(each for each in hand.points() if each.key == f"recall|job|{which}"))


def both_seen(hand: Honest, subject: str, which: str) -> None:
    """Two versions stay two: somebody who has both before him agrees to it."""
    hand.concede(next(each for each in hand.points() if each.key == f"two versions of a record|job|{which}"))


def retire(hand: Honest, subject: str, which: str) -> None:
    """ "The office retires it", at the last number that is here, without those that are lost."""
    tablet, journal = which.removeprefix(f"{SHOP}/").rpartition(":")[0], SHOP if which.startswith(SHOP) else JOB
    told, file = hand.witness.told, (tablet, journal)
    here, other = told.shelf.get(file, {}), told.wanted[file].versions
    last = max(here, default=0)
    lost = [number for number in range(1, last + 1) if number not in here or number in other]
    body = {"tablet": tablet, "journal": journal, "last": last, "without": lost, "reference": "L-1"}
    hand.shop("tablet.retired", f"tablet:{tablet}", **body)


def again_or_back(hand: Honest, subject: str, which: str) -> None:
    """What had no effect is taken back, or, of a whole tablet, its shop is joined; what cannot be is agreed to."""
    told = hand.witness.told
    record = told.records.get(which)
    founding = told.foundings.of_tablet(which) if record is None else ""
    if founding:
        hand.shop("founding.joined", f"founding:{founding}", founding=founding, why="one shop")
    elif record is not None and _goes_back(hand, record):
        hand.say("record.voided", *record.ent, record=record.ref, why="slip", reference="A-1")
    else:
        hand.concede(next(each for each in hand.points() if each.key.endswith(f"|job|{which}")))


def _goes_back(hand: Honest, record: Record) -> bool:
    """Whether a record may be taken back: no taking back, none that is about nothing, and one that does not fit
    always."""
    told = hand.witness.told
    is_misfit = told.of_itself(record) == "misfit"
    return record.typ != "record.voided" and bool(record.ent) and (is_misfit or of_taking_back(record) is not None)
