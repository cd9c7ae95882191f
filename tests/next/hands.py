"""Does what the next step says: each act by its workflow, with what a person would enter."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.lacks.lack import ToDo
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.measure.judging import band
from teardown_app.domain.parts.instrument import instruments, reads_this
from teardown_app.domain.parts.parts import own_place
from teardown_app.domain.parts.routing import route_of
from teardown_app.domain.points.live import Live
from teardown_app.domain.tags.tag import issue
from teardown_app.workflows import operation
from teardown_app.workflows.act import Act, Drafts
from teardown_app.workflows.approval import answer
from teardown_app.workflows.asked import asked_for
from teardown_app.workflows.bring_in import bring_in
from teardown_app.workflows.check import read_check
from teardown_app.workflows.close_job import reopen_job
from teardown_app.workflows.consumable import renew
from teardown_app.workflows.count import count
from teardown_app.workflows.disposition import judge
from teardown_app.workflows.fit import fit
from teardown_app.workflows.hardware import move
from teardown_app.workflows.hold import lift_hold
from teardown_app.workflows.note import note
from teardown_app.workflows.reading import Taken
from teardown_app.workflows.release import release
from teardown_app.workflows.sign import sign
from teardown_app.workflows.take_off import take_off
from teardown_app.workflows.take_out import take_out
from teardown_app.workflows.temporary import put_in as put_in_for_a_time
from teardown_app.workflows.temporary import take_out as take_out_what_was_in
from teardown_app.workflows.torque import tighten

Given = Mapping[str, str]

NO_MATERIALS = Materials({})


def do(act: Act, live: Live, to_do: ToDo) -> Drafts:
    """The drafts of an act; refused like any other."""
    return HANDS[to_do.act](act, live, to_do.about, dict(to_do.fields))


def fresh(live: Live) -> str:
    """A label that no record names yet."""
    return issue("P", "7K3M", 1000 + len(live.job.records), 1)[0][0]


def _key(act: Act, about: str) -> str:
    return about[1:] if is_position(about) else own_place(act.job, about)


def _off(act: Act, live: Live, about: str, given: Given) -> Drafts:
    return take_off(act, _key(act, about), number=fresh(live), condition="good")


def _fit(act: Act, live: Live, about: str, given: Given) -> Drafts:
    part = live.meant(about[1:])[0] if is_position(about) else about
    return fit(act, [part], key=_key(act, about))


def _out(act: Act, live: Live, about: str, given: Given) -> Drafts:
    return take_out(act, [about], why="it is in the way", key=given["position"])


def _bring(act: Act, live: Live, about: str, given: Given) -> Drafts:
    position = act.job.positions[_key(act, about)]
    return bring_in(act, position.key, part_number=position.line.part_number, origin="new", number=fresh(live))


def _count(act: Act, live: Live, about: str, given: Given) -> Drafts:
    return count(act, [about[1:]], act.job.positions[about[1:]].count or 0)


def _gauge(act: Act, reads: str) -> str:
    """The instrument that a check asks for, where the register has one in use."""
    known = [one.number for one in instruments(act.shop) if reads and reads_this(one, reads) and not one.out]
    return next(iter(known), "")


def _read(act: Act, live: Live, about: str, given: Given) -> Drafts:
    asked = asked_for(act, about, given["check"], when=given["when"], spot=given["spot"])
    limit = band(asked.check.limit) if asked.check.limit else None
    numbers = [one for one in (limit.min, limit.max) if one is not None] if limit else []
    gauge = _gauge(act, asked.check.instrument)
    if not numbers:
        return read_check(act, about, asked, Taken(answer="good", note="looked at", instrument=gauge))
    value = f"{sum(numbers) / len(numbers):f} {limit.unit}" if limit else ""
    against = f"0 {limit.unit}" if limit and limit.compare else ""
    return read_check(act, about, asked, Taken((value,), against=against, instrument=gauge))


def _done(act: Act, live: Live, about: str, given: Given) -> Drafts:
    route = route_of(act.job, about)
    wanted = (
        {name: "B2" for one in route.operations if one.id == given["operation"] for name in one.record} if route else {}
    )
    return operation.done(act, [about], NO_MATERIALS, values=wanted)


def _renew(act: Act, live: Live, about: str, given: Given) -> Drafts:
    return renew(act, [about[1:]], lot="L-1", serial="S-1", expiry="2031-01-31")


def _temporary(word: str) -> Callable[[Act, Live, str, Given], Drafts]:
    workflow = put_in_for_a_time if word == "in" else take_out_what_was_in

    def done(act: Act, live: Live, about: str, given: Given) -> Drafts:
        if is_position(about):
            return workflow(act, [about[1:]])
        return workflow(act, [], what=[str(act.job.value(about, "what"))])

    return done


HANDS: dict[str, Callable[[Act, Live, str, Given], Drafts]] = {
    "part off": _off,
    "part fit": _fit,
    "part out": _out,
    "part bring-in": _bring,
    "part judge": lambda act, live, about, given: judge(act, [about], as_="use as is"),
    "part lift": lambda act, live, about, given: lift_hold(act, [about], why="looked at"),
    "part note": lambda act, live, about, given: note(act, [about], conditions=(), written={given["what"]: "S-1"}),
    "part start": lambda act, live, about, given: operation.start(act, [about], NO_MATERIALS),
    "part done": _done,
    "part release": lambda act, live, about, given: release(act, [about], accept=True),
    "finding answer": lambda act, live, about, given: answer(act, [about], as_="approved", reference="mail 7"),
    "check read": _read,
    "hardware count": _count,
    "hardware move": lambda act, live, about, given: move(
        act, [about[1:]], {name.replace("_", " "): int(number) for name, number in given.items()}
    ),
    "joint torque": lambda act, live, about, given: tighten(act, [about[1:]], pass_=given["pass"]),
    "consumable renew": _renew,
    "temporary out": _temporary("out"),
    "temporary in": _temporary("in"),
    "job sign": lambda act, live, about, given: sign(act, about, meaning="inspected"),
    "job reopen": lambda act, live, about, given: reopen_job(act, why="a point is open since"),
}
