"""What is next: from what is wanted down to the first act that nothing stands against.

Nothing is decided here. What is wanted are the lacks of a place, a part or the tool; what stands against
an act are the lacks that its own workflow refuses for; so no act is proposed that would be refused. A reading
also waits for what would make it lapse.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import chain
from typing import NamedTuple

from teardown_app.domain.against.closed import against_closed
from teardown_app.domain.against.fitting import against_fit
from teardown_app.domain.against.leaving import against_bring_in, against_off, against_out
from teardown_app.domain.against.putting_in import against_put_in
from teardown_app.domain.against.reading import against_instrument, against_reading
from teardown_app.domain.against.release import against_release
from teardown_app.domain.against.renewal import against_renewal
from teardown_app.domain.against.torque import against_torque, against_wrench
from teardown_app.domain.against.work import against_work
from teardown_app.domain.bill.gate import GATES, POWER_ON, SHIP
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.bill.route import Operation
from teardown_app.domain.lacks.lack import (
    CONSUMABLE,
    DISPOSITION,
    HARDWARE,
    HOLD,
    MISSING,
    NO_PART,
    OVER_EMPTY,
    RESTS,
    SEVERAL,
    Lack,
    ToDo,
    Where,
    at_place,
    lack,
    standing,
)
from teardown_app.domain.lacks.place import place_lacks
from teardown_app.domain.lacks.reading import as_found_readings
from teardown_app.domain.lacks.record import absent_lacks
from teardown_app.domain.lacks.release import is_released, why_not_released
from teardown_app.domain.ledger.record import is_position, position_thing
from teardown_app.domain.next.next_off import can_come_off, off_state
from teardown_app.domain.parts.claiming import places_of
from teardown_app.domain.parts.filling import place_of
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import own_place
from teardown_app.domain.parts.routing import Moment, route_of
from teardown_app.domain.points.live import Live
from teardown_app.domain.points.point import OPEN, Point

HELD_LAST = ("hardware", "temporary")
"""Screws go in when what they hold is in: places for them are looked at last."""

PUT_IN = (MISSING, OVER_EMPTY, CONSUMABLE, HARDWARE)
"""Points that are cleared by putting something in."""

REOPEN = "job reopen"
"""Done at every bench: nothing else is recorded on a job that is closed."""

SCAN = "scan"
"""What is waited for where several parts are meant for a place."""


class Next(NamedTuple):
    """The next act, or what is waited for; and why: from what is wanted down to what is first.

    `to_do` is None where nothing is to do, or a person looks first. `waits` is `scan`, or a sentence that
    says until when.
    """

    to_do: ToDo | None = None
    waits: str = ""
    chain: tuple[Lack, ...] = ()


NOTHING = Next()

BENCHES = {
    "teardown": ("part off", "hardware count"),
    "cleaning": ("part start", "part done"),
    "assembly": (
        "part fit",
        "part out",
        "part bring-in",
        "part release",
        "hardware count",
        "hardware move",
        "joint torque",
        "consumable renew",
        "temporary in",
        "temporary out",
        "check read",
    ),
}
"""Bench -> acts that are done there."""


class View(NamedTuple):
    """What a step is looked for in: the job with its points, the moment, and the shop's table of materials."""

    live: Live
    now: Moment
    materials: Materials | None = None


def next_step(view: View, about: str = "", bench: str = "", gate: str = POWER_ON) -> Next:
    """The next step for a place (`@10.20`), a part, an assembly with all beneath it, or the tool (empty).

    With a bench, the first act that is done there; else the first act, and where there is none what is waited
    for. Nothing of the gates after `gate` is wanted.
    """
    first = NOTHING
    for wanted in _wanted(view, about, bench, gate):
        found = follow(view, wanted)
        if found.to_do is not None and (not bench or found.to_do.act in (REOPEN, *BENCHES[bench])):
            return found
        first = first if first.chain else found
    return NOTHING if bench else first


def follow(view: View, wanted: Lack) -> Next:
    """From a lack down to the first act that nothing stands against."""
    found: list[Lack] = []
    one: Lack | None = wanted
    while one is not None and one not in found:
        found.append(one)
        if one.kind == RESTS or (one.to_do is not None and one.to_do.act == "part wait-over"):
            return Next(None, one.wrong, tuple(found))
        if one.kind == SEVERAL:
            return Next(None, SCAN, tuple(found))
        before = next(against(view, one.to_do), None) if one.to_do else None
        if before is None:
            return Next(one.to_do, "", tuple(found))
        one = before
    return Next(None, "", tuple(found))


# what is wanted


def _wanted(view: View, about: str, bench: str, gate: str) -> Iterator[Lack]:
    live = view.live
    if bench == "teardown":
        return _on_the_tool(live, about)
    if about and not is_position(about):
        return of_part(view, about, gate)
    key, job = about.removeprefix("@"), live.job
    beneath = job.beneath(key) if key else list(job.positions.values())
    places = sorted(beneath, key=lambda one: one.line.kind in HELD_LAST)
    keys = chain((key,) if key else (), (one.key for one in places))
    return (one for each in keys for one in at(view, each, gate))


def at(view: View, key: str, gate: str) -> Iterator[Lack]:
    """What is wanted at a place: its own points first, then those of the parts that belong there."""
    points = [one for one in view.live.at(key) if one.state == OPEN and _comes_before(one, gate)]
    order = sorted(points, key=lambda one: (bool(one.part), GATES.index(one.gate)))
    return (_lack_of(one) for one in order)


def of_part(view: View, part: str, gate: str) -> Iterator[Lack]:
    """What is wanted of a part: readings as found, what stands against its release, the release, its place."""
    job = view.live.job
    key = own_place(job, part)
    if places_of(job, part):
        yield from at(view, place_of(job, part) or key, gate)
        return
    found = [] if is_released(job, part) else against_release(job, part, view.now) or why_not_released(job, part)
    first = [one for one in found if one.kind in (HOLD, DISPOSITION)]
    yield from first
    yield from as_found_readings(job, part)
    yield from (one for one in found if one not in first)
    if key in job.positions:
        yield from (one for one in place_lacks(job, job.positions[key]) if one.kind == MISSING)


def _on_the_tool(live: Live, near: str) -> Iterator[Lack]:
    """What can come off: the places near the one named first."""
    for position in can_come_off(live.job, near.removeprefix("@")):
        act = "hardware count" if position.line.kind == "hardware" else "part off"
        yield _wish(position.key, ToDo(act, position_thing(position.key)))


def _wish(key: str, to_do: ToDo) -> Lack:
    return Lack(MISSING, at_place(key), "", "", "", to_do)


def _comes_before(point: Point, gate: str) -> bool:
    return GATES.index(point.gate) <= GATES.index(gate)


def _lack_of(point: Point) -> Lack:
    subject, which = point.key.split("|")[1:3]
    where = Where(subject, point.position, point.part)
    return Lack(point.kind, where, point.wrong, point.clears, point.gate, point.to_do, point.ground, which, point.never)


def last_gate(live: Live) -> str:
    """Shipping, once nothing stops the tool from running."""
    return POWER_ON if live.stops(POWER_ON) else SHIP


# what stands against an act


def against(view: View, to_do: ToDo) -> Iterator[Lack]:
    """What stands against an act: what its workflow refuses for."""
    if to_do.act == REOPEN:
        return
    yield from against_closed(view.live.job)
    ask = AGAINST.get(to_do.act)
    if ask:
        yield from ask(view, to_do)


def _fit(view: View, to_do: ToDo) -> Iterator[Lack]:
    live, job = view.live, view.live.job
    key = to_do.about[1:] if is_position(to_do.about) else own_place(job, to_do.about)
    position = job.positions.get(key)
    if position is None:
        return
    meant = live.meant(key) if is_position(to_do.about) else [to_do.about]
    if len(meant) == 1:
        yield from against_fit(job, meant[0], position, view.now)
    elif meant:
        yield lack(SEVERAL, at_place(key), f"{len(meant)} parts are meant for {named(job, key)}.")
    elif off_state(job, key) is False:
        wrong = f"The part of {named(job, key)} has not come off yet."
        yield lack(NO_PART, at_place(key), wrong, to_do=ToDo("part off", position_thing(key)), clears="Take it off.")
    else:
        wrong = f"No part for {named(job, key)} is known."
        yield lack(NO_PART, at_place(key), wrong, to_do=ToDo("part bring-in", position_thing(key)))


def _off(view: View, to_do: ToDo) -> Iterator[Lack]:
    return against_off(view.live.job, view.live.job.positions[to_do.about[1:]])


def _out(view: View, to_do: ToDo) -> Iterator[Lack]:
    return against_out(view.live.job, to_do.about, to_do.given("position"))


def _bring_in(view: View, to_do: ToDo) -> Iterator[Lack]:
    return against_bring_in(view.live.job, view.live.job.positions[to_do.about[1:]])


def _work(view: View, to_do: ToDo) -> Iterator[Lack]:
    job = view.live.job
    route = route_of(job, to_do.about)
    known = [one for one in route.operations if one.id == to_do.given("operation")] if route else []
    return against_work(job, to_do.about, known[0] if known else Operation(""), view.now, view.materials)


def _release(view: View, to_do: ToDo) -> Iterator[Lack]:
    return iter(against_release(view.live.job, to_do.about, view.now))


def _read(view: View, to_do: ToDo) -> Iterator[Lack]:
    job = view.live.job
    check = job.bill.checks[to_do.given("check")]
    return chain(
        against_reading(job, to_do.about, check, to_do.given("when"), to_do.given("spot"), view.now),
        against_instrument(job, to_do.about, check, view.now),
        _lapses_it(view, to_do.about.removeprefix("@")) if is_position(to_do.about) else (),
    )


def _lapses_it(view: View, key: str) -> Iterator[Lack]:
    """What is still to be put in at a place or beneath: a reading there lapses with it, so it is done before."""
    for each in (key, *(one.key for one in view.live.job.beneath(key))):
        for point in view.live.at(each):
            if point.state == OPEN and point.kind in PUT_IN:
                yield _lack_of(point)


def _put_in(view: View, to_do: ToDo) -> Iterator[Lack]:
    job = view.live.job
    return against_put_in(job, job.positions[to_do.about[1:]], int(to_do.given("put_in") or 0))


def _torque(view: View, to_do: ToDo) -> Iterator[Lack]:
    job, position = view.live.job, view.live.job.positions[to_do.about[1:]]
    return chain(against_torque(job, position, view.now), against_wrench(job, position, view.now))


def _renew(view: View, to_do: ToDo) -> Iterator[Lack]:
    return standing(view.live.job, against_renewal(view.live.job, view.live.job.positions[to_do.about[1:]]))


def _sign(view: View, to_do: ToDo) -> Iterator[Lack]:
    return absent_lacks(view.live.job)


AGAINST: dict[str, Callable[[View, ToDo], Iterator[Lack]]] = {
    "part fit": _fit,
    "part off": _off,
    "part out": _out,
    "part bring-in": _bring_in,
    "part start": _work,
    "part done": _work,
    "part release": _release,
    "check read": _read,
    "hardware move": _put_in,
    "joint torque": _torque,
    "consumable renew": _renew,
    "job sign": _sign,
}
"""Act -> what stands against it; the others wait for nothing but a right."""
