"""What an honest person does about each point of a part: literally what the point says."""

from __future__ import annotations

from typing import Any

from tests.open_points.naive_readings import AGAIN, Reading
from tests.open_points.naive_said import NOTED
from tests.proof.honest import FOR_EVER, Honest

READY = ("use as is", "rework", "repair")


def missing(hand: Honest, key: str, which: str = "") -> None:
    """ "Fit a released part": the one that belongs there and lies about, else a new one."""
    tool = hand.witness.tool
    own = [each for each in tool.parts if tool.seat(each) == [key] and not tool.claims(each) and tool.goes_back(each)]
    part = own[0] if own else new_part(hand, key)
    make_ready(hand, part)
    hand.say("part.fitted", part, f"@{key}")


def new_part(hand: Honest, key: str) -> str:
    """A new part for a place comes in."""
    number = hand.witness.tool.places[key].line.part_number
    thing = hand.tablet.thing()
    return hand.say("part.brought_in", thing, origin="new", part_number=number, meant_for=key).ent[0]


def over_empty(hand: Honest, over: str, key: str) -> None:
    """ "Take it out and fill the place first.\""""
    change(hand, over)
    if hand.witness.is_hole(key, []):
        missing(hand, key)


def change(hand: Honest, key: str, which: str = "") -> None:
    """What sits in a place comes out."""
    for part in hand.witness.tool.fitted_at(key):
        hand.say("part.taken_out", part, f"@{key}")


def fitted_twice(hand: Honest, subject: str, which: str = "") -> None:
    """ "Look where it is, and take the other out.\""""
    tool = hand.witness.tool
    if subject in tool.places:
        pairs = [(part, subject) for part in tool.fitted_at(subject) if subject in tool.claims(part)]
    else:
        pairs = [(subject, key) for key in tool.claims(subject)]
    for part, key in pairs[1:]:
        hand.say("part.taken_out", part, f"@{key}")
    hand.say("part.fitted", pairs[0][0], f"@{pairs[0][1]}")


def released(hand: Honest, part: str, which: str = "") -> None:
    """ "Release it", when everything else is done."""
    make_ready(hand, part)


def make_ready(hand: Honest, part: str) -> None:
    """All that a part lacks for its release is done, then it is released."""
    for hold in hand.witness.work.holds(part):
        hand.say("hold.lifted", hold, why="looked")
    for finding, answer in hand.witness.work.findings(part).items():
        if answer in ("", "asked", "declined"):
            hand.say("approval.given", finding, as_="approved")
    if hand.witness.told.value(part, "disposition") not in READY:
        hand.say("disposition.given", part, as_="use as is")
    _operate(hand, part)
    _write_down(hand, part)
    for reading in hand.witness.work.part_readings(part):
        if not hand.witness.work.counts(part, reading):
            read(hand, part, reading)
    lines = hand.witness.tool.line_names(part)
    hand.say("part.released", part, covers={part: []}, lines={part: lines})


def _operate(hand: Honest, part: str) -> None:
    """What was begun is ended; the whole route is gone through once more if any of it is not over; waits are over."""
    told = hand.witness.told
    for fact in sorted(told.facts(part, "operation/")):
        if told.value(part, fact) not in ("done", "skipped"):
            done(hand, part, fact)
    if hand.witness.work.lacks(part, lambda *key: True)[0]:
        for route, operation in hand.witness.work.route(part):
            done(hand, part, f"operation/{route}/{operation.id}/1", values=dict.fromkeys(operation.record, "3"))
    for route, operation in hand.witness.work.route(part):
        if operation.wait_h:
            hand.say("wait.over", part, route=route, operation=operation.id, pass_=1, why="dry")


def done(hand: Honest, part: str, fact: str, **more: Any) -> None:
    """An operation is done, and it is said when it was begun."""
    _, route, operation, number = fact.split("/")
    body = {"route": route, "operation": operation, "pass": int(number), "began": "2026-03-02T08:00:00+01:00", **more}
    hand.say("operation.done", part, **body)


def _write_down(hand: Honest, part: str) -> None:
    wanted = {name for line in hand.witness.tool.lines(part) for name in line.write_down}
    told = hand.witness.told
    lacking = {name: "7" for name in sorted(wanted) if not str(told.value(part, f"written/{name}", "")).strip()}
    if lacking:
        hand.say("part.noted", part, written=lacking)


def check_due(hand: Honest, subject: str, which: str) -> None:
    """ "Read the check.\""""
    _, check, spot, when = which.split("/")
    thing = f"@{subject}" if subject in hand.witness.tool.places else subject
    read(hand, thing, (check, spot, when))


def read(hand: Honest, thing: str, reading: Reading) -> None:
    """A reading that is good, by a new instrument where one is asked, a second one after its hours; what protects
    people was not read well before, and that was on the wrong thing."""
    check, spot, when = reading
    before = (check, spot, when.removesuffix(AGAIN))
    if before != reading:
        read(hand, thing, before)
        hand.tablet.clock.hours += float(hand.bill.checks[check].again_h or 0)
    if hand.witness.told.is_protective(check):
        _not_this_one(hand, thing, reading)
    body: dict[str, Any] = {"check": check, "when": when, "verdict": "accept", **({"spot": spot} if spot else {})}
    named = hand.bill.checks[check].instrument if check in hand.bill.checks else ""
    if named:
        number = f"M9999{len(hand.tablet.view('_shop')):04d}X"
        hand.shop("instrument.given", f"instrument:{number}", number=number, reads=named, due=FOR_EVER)
        body["instrument"] = number
    hand.say("check.read", thing, **body)


def _not_this_one(hand: Honest, thing: str, reading: Reading) -> None:
    told, fact = hand.witness.told, "check/" + "/".join(reading)
    for entry in [*told.all(thing, fact), *told.all_gone(thing, fact)]:
        if entry.value["verdict"] != "accept":
            hand.say("record.voided", *entry.record.ent, record=entry.record.ref, why="slip", reference="A-1")


def lift(hand: Honest, subject: str, hold: str) -> None:
    """A hold is lifted."""
    hand.say("hold.lifted", hold, why="looked")


def answer(hand: Honest, part: str, finding: str) -> None:
    """The customer agrees."""
    hand.say("approval.given", finding, as_="approved")


def account_for(hand: Honest, part: str, which: str = "") -> None:
    """A part that is nowhere goes back as it is."""
    for key in hand.witness.tool.claims(part):
        hand.say("part.taken_out", part, f"@{key}")
    hand.say("disposition.given", part, as_="return unrepaired")


def new_labels(hand: Honest, number: str, which: str = "") -> None:
    """ "Put a new label on one": on all but the first; with another job, on ours."""
    told = hand.witness.told
    labelled = [p for p in hand.witness.tool.parts if number in {e.value for e in told.left(p, "number")}]
    for n, part in enumerate(labelled if which else labelled[1:]):
        name = f"P9999{len(hand.tablet.own('_shop')) + len(hand.tablet.view('J7K3M00012')) + n:04d}X"
        hand.say("part.renumbered", part, number=name, why="two of them")


def agree(hand: Honest, subject: str, fact: str) -> None:
    """Somebody who has seen both entries says which it is."""
    told, name = hand.witness.told, f"@{subject}" if subject in hand.witness.tool.places else subject
    kind, _, rest = fact.partition("/")
    if subject == "job":
        hand.say("job.amended", "job", **{fact: told.value("job", fact)}, why="asked")
    elif kind == "came_out":
        hand.say("part.same_as", *hand.witness.tool.came_out(subject))
    elif kind == "scope":
        hand.say("configuration.received", name, as_="received complete")
    elif kind == "written":
        hand.say("part.noted", name, written={rest: told.value(name, fact)})
    elif kind in NOTED:
        hand.say("part.noted", name, **{kind: told.value(name, fact)})
    elif kind == "disposition":
        hand.say("disposition.given", name, as_=told.value(name, fact))
    elif kind == "operation":
        done(hand, name, fact.removesuffix("/twice"))
    elif kind == "check":
        read(hand, name, tuple(rest.split("/")))  # type: ignore[arg-type]
    elif kind == "approval":
        answer(hand, name, rest)
