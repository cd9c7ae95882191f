"""Forms of the cleaning room: what an operation writes down, why one is stopped or skipped, a wait that is over."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.parts.routing import remaining, route_of
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import first_open, text
from teardown_app.ui.view import Field
from teardown_app.ui.words import counted
from teardown_app.workflows.at_operation import is_begun
from teardown_app.workflows.began import offered_beginnings
from teardown_app.workflows.operation import done, skip, start, still_to_write_down, stop
from teardown_app.workflows.wait import wait_over

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


def _parts(values: Values) -> list[str]:
    return [str(one) for one in values.get("parts") or [values["part"]]]


def _operation(desk: Desk, values: Values) -> str:
    left = remaining(desk.job, _parts(values)[0])
    return left[0].id if left else ""


def _many(values: Values) -> str:
    return counted(len(_parts(values)), "part")


def _start(desk: Desk, values: Values) -> None:
    name = _operation(desk, values)
    desk.act(lambda act: start(act, _parts(values), desk.workshop.materials), f"{name} begun on {_many(values)}.")


def _ask_done(desk: Desk, values: Values) -> Field | None:
    """What the route says is written down and was not given at the start, for any of the parts."""
    job, asks = desk.job, {}
    for part in _parts(values):
        left, route = remaining(job, part), route_of(job, part)
        for name in still_to_write_down(desk.look, part, route, left[0]) if left and route else ():
            asks[name] = text(f"value {name}", f"{left[0].id}: {name}?")
        if left and route and left[0].time and not is_begun(desk.look, part, route, left[0]):
            asks["began"] = text(
                "began", f"{left[0].id}: when was it begun? As 10.30", offered_beginnings(desk.look.now)
            )
    return first_open(values, *asks.values())


def _done(desk: Desk, values: Values) -> None:
    name = _operation(desk, values)
    given = {key.removeprefix("value "): str(said) for key, said in values.items() if key.startswith("value ")}
    desk.act(
        lambda act: done(
            act, _parts(values), desk.workshop.materials, values=given, began=str(values.get("began", ""))
        ),
        f"{name} done on {_many(values)}.",
    )
    desk.screen.state.pop("basket", None)  # the parts stand at the next operation now


def _stop(desk: Desk, values: Values) -> None:
    name = _operation(desk, values)
    desk.act(lambda act: stop(act, _parts(values), note=str(values["why"])), f"{name} stopped on {_many(values)}.")


def _skip(desk: Desk, values: Values) -> None:
    name = _operation(desk, values)
    desk.act(
        lambda act: skip(act, _parts(values), why=str(values["why"])),
        f"{name} skipped on {_many(values)}.",
        weighty=f"to skip {name}",
    )


def _wait(desk: Desk, values: Values) -> None:
    desk.act(
        lambda act: wait_over(act, _parts(values), why=str(values["why"])),
        "The wait is over.",
        weighty="to end the wait",
    )


FORMS = (
    Form("operation start", "", lambda desk, values: None, _start),
    Form("operation done", "written down", _ask_done, _done),
    Form("operation stop", "", lambda _, values: first_open(values, text("why", "Why is it stopped?")), _stop),
    Form("operation skip", "", lambda _, values: first_open(values, text("why", "Why is it good without?")), _skip),
    Form("wait over", "", lambda _, values: first_open(values, text("why", "Why is the wait over?")), _wait),
)
