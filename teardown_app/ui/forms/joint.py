"""Forms of joints: a pass of torque with its wrench, measured or as the wrench was set; opening."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.bill.bill import Joint
from teardown_app.domain.parts.instrument import instrument
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.joint import AGAIN, asks_wrench, hours_to_rest, pass_says, passes_left, unfit_wrenches
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text
from teardown_app.ui.units import offered_units
from teardown_app.ui.view import NUMBER, Field
from teardown_app.workflows.torque import open_joint, tighten

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

WRENCH, NONE_OF_THEM = "torque wrench", "none of these"


def _ask(desk: Desk, values: Values) -> Field | None:
    """Only a torque that was measured is entered; the click wrench that was set is one touch."""
    position = desk.job.positions[str(values["key"])]
    rest = hours_to_rest(desk.job, position, desk.look.now) if _next_pass(desk, values) == AGAIN else 0
    if rest > 0 and "early" not in values:
        return text("early", f"It rests for another {rest:.1f} h. Why may it be tightened again now?")
    wrench = _ask_wrench(desk, values)
    if wrench is not None or "torque" in values or not values.get("measured"):
        return wrench
    asks, units = f"{named(desk.job, position.key)}: measured torque", offered_units("N m", desk.choice.units)
    return Field("torque", asks, NUMBER, unit=units[0], units=units, choices=units)


def _ask_wrench(desk: Desk, values: Values) -> Field | None:
    """Which wrench, where the pass counts only with one: asked once, then the one last used while it serves. One
    measured is asked for anew, and so is another one."""
    known = _known(desk, values)
    if "wrench" in values or not known:
        return None
    used = desk.settings.instrument_for(WRENCH)
    if not (values.get("measured") or values.get("another wrench")) and known.get(used) == "":
        return None
    offered = [_offered(desk, *one) for one in sorted(known.items(), key=_fit_first)]
    asks = f"{named(desk.job, str(values['key']))}: which {WRENCH}?"
    return first_open(values, choose("wrench", asks, (*offered, NONE_OF_THEM)))


def _fit_first(one: tuple[str, str]) -> tuple[bool, str]:
    return bool(one[1]), one[0]


def _offered(desk: Desk, number: str, wrong: str) -> str:
    """Number and name, or what is wrong with it, in few words: a plate holds two lines."""
    known = instrument(desk.workshop.shop, number)
    says = f"{known.name or known.reads}{f', due {known.due}' if known.due else ''}" if known else ""
    return f"{number} {wrong.removeprefix(f'wrench {number} ') or says}"


def _next_pass(desk: Desk, values: Values) -> str:
    left = passes_left(desk.job, desk.job.positions[str(values["key"])])
    return left[0] if left else ""


def _known(desk: Desk, values: Values) -> dict[str, str]:
    """Wrenches in use and why they do not serve; none where the pass counts without one."""
    joint, name = desk.job.positions[str(values["key"])].line.joint or Joint(), _next_pass(desk, values)
    return unfit_wrenches(desk.job, joint, name, desk.look.now) if name and asks_wrench(joint, name) else {}


def _wrench(desk: Desk, values: Values) -> str:
    """Number of the wrench; one that serves is kept for the next joint."""
    known = _known(desk, values)
    if "wrench" not in values:
        return desk.settings.instrument_for(WRENCH) if known else ""
    number = str(values["wrench"]).partition(" ")[0] if values["wrench"] != NONE_OF_THEM else ""
    if known.get(number) == "":
        desk.settings.use_instrument(WRENCH, number)
    return number


def _torque(desk: Desk, values: Values) -> None:
    key, name, number = str(values["key"]), _next_pass(desk, values), _wrench(desk, values)
    said = (f"pass of {pass_says(name)}" if name else "torque") + (f" with {number}" if number else "")
    measured, early = str(values.get("torque", "")), str(values.get("early", ""))
    desk.act(
        lambda act: tighten(act, [key], torque=measured, early=early, instrument=number),
        f"{named(desk.job, key)}: {said}.",
        weighty="to tighten it before it has rested" if early else "",
    )


def _open(desk: Desk, values: Values) -> None:
    key = str(values["key"])
    desk.act(lambda act: open_joint(act, [key], why=str(values["why"])), f"{named(desk.job, key)} is opened.")


FORMS = (
    Form("torque", "torque", _ask, _torque),
    Form("open joint", "", lambda _, values: first_open(values, text("why", "Why is it opened?")), _open),
)
