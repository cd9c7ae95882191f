"""Acts to be done as plates: what stands on them, and the form that they open."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from teardown_app.domain.lacks.lack import ToDo
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.next.step import View as Scope
from teardown_app.domain.parts.parts import own_place, word_of
from teardown_app.domain.parts.routing import route_of
from teardown_app.domain.places.joint import pass_says
from teardown_app.ui.view import Step

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

FAR = 48
"""Longer words do not fit on a plate."""


def scope_of(desk: Desk) -> Scope:
    """Where the next step is looked for."""
    return Scope(desk.opened.live, desk.look.now, desk.workshop.materials)


def plate(desk: Desk, to_do: ToDo, it: str = "") -> Step | None:
    """The plate of an act; None where a person looks first. `it` is the part in hand: it is not named again."""
    made = PLATES.get(to_do.act)
    if made is None:
        return None
    says, form, values = made(desk, to_do, it)
    return Step(shorter(says), "open_form", (form, *(text for pair in sorted(values.items()) for text in pair)))


def shorter(says: str) -> str:
    """Words for a plate: as they are, or as many whole ones as fit.

    >>> shorter("Read: Lip whole round, splice closed, no flat, no twist in the groove")
    'Read: Lip whole round, splice closed, no flat …'
    """
    if len(says) <= FAR:
        return says
    return says[: FAR - 1].rpartition(" ")[0].rstrip(",;:") + " …"


def _place(desk: Desk, to_do: ToDo) -> str:
    return to_do.about[1:] if is_position(to_do.about) else own_place(desk.job, to_do.about)


def _name(desk: Desk, to_do: ToDo, it: str) -> str:
    if to_do.about == it:
        return "it"
    key = _place(desk, to_do)
    position = desk.job.positions.get(key)
    return f"{position.line.description} {key}" if position else desk.look.name(to_do.about)


Made = tuple[str, str, dict[str, str]]


def _fit(desk: Desk, to_do: ToDo, it: str) -> Made:
    key = _place(desk, to_do)
    part = (desk.opened.live.meant(key) or [""])[0] if is_position(to_do.about) else to_do.about
    says = f"Fit it in {key}" if part == it else f"Fit {_name(desk, to_do, it)}"
    return says, "fit", {"part": part, "key": key}


def _out(desk: Desk, to_do: ToDo, it: str) -> Made:
    return f"Take out {_name(desk, to_do, it)}", "out", {"part": to_do.about}


def _bring_in(desk: Desk, to_do: ToDo, it: str) -> Made:
    key = _place(desk, to_do)
    return f"Bring in a part for {key}", "bring in", {"key": key}


def _judge(desk: Desk, to_do: ToDo, it: str) -> Made:
    return f"Say what happens to {_name(desk, to_do, it)}", "disposition", {"part": to_do.about}


def _lift(desk: Desk, to_do: ToDo, it: str) -> Made:
    of = "" if to_do.about == it else f": {_name(desk, to_do, it)}"
    return f"Lift the hold{of}", "lift", {"thing": to_do.about}


def _answer(desk: Desk, to_do: ToDo, it: str) -> Made:
    return f"Answer: {word_of(desk.job, to_do.about)}", "answer", {"finding": to_do.about}


def _operation(desk: Desk, to_do: ToDo) -> str:
    route, name = route_of(desk.job, to_do.about), to_do.given("operation")
    found = next((one for one in (route.operations if route else ()) if one.id == name), None)
    return (found.says if found else "") or name


def _write_down(desk: Desk, to_do: ToDo, it: str) -> Made:
    what = to_do.given("what")
    return f"Write down the {what}: {_name(desk, to_do, it)}", "note", {"part": to_do.about, "what": what}


def _start(desk: Desk, to_do: ToDo, it: str) -> Made:
    return f"Begin: {_operation(desk, to_do)}", "operation start", {"part": to_do.about}


def _done(desk: Desk, to_do: ToDo, it: str) -> Made:
    return f"Done: {_operation(desk, to_do)}", "operation done", {"part": to_do.about}


def _release(desk: Desk, to_do: ToDo, it: str) -> Made:
    return f"Release {_name(desk, to_do, it)}", "release", {"part": to_do.about}


def _read(desk: Desk, to_do: ToDo, it: str) -> Made:
    given = dict(to_do.fields)
    check = desk.job.bill.checks[given["check"]]
    where = "" if to_do.about == it else f" {_place(desk, to_do)}"
    return f"Read: {check.says or check.name}{where}", "check", {"thing": to_do.about, **given}


def _count(desk: Desk, to_do: ToDo, it: str) -> Made:
    return f"Count {_name(desk, to_do, it)}", "count", {"key": _place(desk, to_do)}


def _screws(desk: Desk, to_do: ToDo, it: str) -> Made:
    key, given = _place(desk, to_do), dict(to_do.fields)
    if "added" in given:
        return f"Take {given['added']} new: {_name(desk, to_do, it)}", "move", {"key": key, "word": "added"}
    return f"All screws in: {_name(desk, to_do, it)}", "screws in", {"key": key}


def _torque(desk: Desk, to_do: ToDo, it: str) -> Made:
    says = f"Torqued {pass_says(to_do.given('pass'))}: {_name(desk, to_do, it)}"
    return says, "torque", {"key": _place(desk, to_do)}


def _renew(desk: Desk, to_do: ToDo, it: str) -> Made:
    return f"Renewed: {_name(desk, to_do, it)}", "renew", {"key": _place(desk, to_do)}


def _temporary(word: str, says: str) -> Callable[[Desk, ToDo, str], Made]:
    def made(desk: Desk, to_do: ToDo, it: str) -> Made:
        if is_position(to_do.about):
            return f"{says}: {_name(desk, to_do, it)}", "temporary", {"key": to_do.about[1:], "word": word}
        what = str(desk.job.value(to_do.about, "what", ""))
        return f"{says}: {what}", "added", {"what": what, "word": word}

    return made


def _sign(desk: Desk, to_do: ToDo, it: str) -> Made:
    return "Sign again", "sign", {"thing": to_do.about}


def _reopen(desk: Desk, to_do: ToDo, it: str) -> Made:
    return "Open the job again", "reopen", {}


PLATES: dict[str, Callable[[Desk, ToDo, str], Made]] = {
    "part fit": _fit,
    "part out": _out,
    "part bring-in": _bring_in,
    "part judge": _judge,
    "part lift": _lift,
    "finding answer": _answer,
    "part note": _write_down,
    "part start": _start,
    "part done": _done,
    "part release": _release,
    "check read": _read,
    "hardware count": _count,
    "hardware move": _screws,
    "joint torque": _torque,
    "consumable renew": _renew,
    "temporary out": _temporary("out", "It is out"),
    "temporary in": _temporary("in", "In for shipping"),
    "job sign": _sign,
    "job reopen": _reopen,
}
"""Act -> words of its plate, its form, and what the form is given."""
