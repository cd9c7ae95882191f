"""Forms about measuring instruments: registered, calibrated, found out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.parts.instrument import instrument, instruments
from teardown_app.domain.parts.recall import DOUBTFUL, touched_by_instrument
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import first_open, text
from teardown_app.ui.recording import Undo
from teardown_app.ui.view import TAG, UNSURE, Field
from teardown_app.ui.words import counted
from teardown_app.workflows.instrument import clear, found_out, give_instrument

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

SAID = ("reads", "name", "unit", "low", "high", "uncertainty", "calibrated", "due")


def _ask_instrument(desk: Desk, values: Values) -> Field | None:
    """A new one says everything; one that is known is only calibrated anew."""
    hint = "A label for instruments begins with M."
    number = Field("number", "Scan the instrument's label", TAG, hint=hint, wants="M")
    known = instrument(desk.workshop.shop, str(values.get("number", "")))
    days = (
        text("calibrated", "Day of its calibration, as 2026-03-14"),
        text("due", "Last day on which it may release, as 2027-03-14"),
    )
    if known:
        return first_open(values, number, *days)
    used = sorted({one.reads for one in instruments(desk.workshop.shop)} | _wanted(desk))
    return first_open(
        values,
        number,
        text("reads", "What does it read, as bills call it?", tuple(used)),
        text("name", "What do people call it?", may_be_empty=True),
        text("unit", "Unit it shows, such as um or ohm", may_be_empty=True),
        text("low", "Lower end of its range, with the unit", may_be_empty=True),
        text("high", "Upper end of its range, with the unit", may_be_empty=True),
        text("uncertainty", "Uncertainty (k = 2): 0.02 um, 1.5 %, or 0.02 um + 1 %", may_be_empty=True),
        *days,
    )


def _wanted(desk: Desk) -> set[str]:
    """Words for instruments in the bill of the job in hand."""
    checks = desk.job.bill.checks.values() if desk.job_number else ()
    return {one.instrument for one in checks if one.instrument}


def _instrument(desk: Desk, values: Values) -> None:
    number = str(values["number"])
    before = instrument(desk.workshop.shop, number)
    said = {name: str(values.get(name, "")) for name in SAID}
    again = {name: getattr(before, name, "") for name in SAID}
    undo = Undo(anew=lambda act: give_instrument(act, number, out=before is None, **(again if before else said)))
    desk.shop_act(lambda act: give_instrument(act, number, out=False, **said), f"Instrument {number}.", undo=undo)


def _ask_found_out(desk: Desk, values: Values) -> Field | None:
    return first_open(
        values,
        text("error", f"{values['number']}: by how much did it read wrongly? +0.05 um: it showed too much"),
        text("last_good", "Last day on which it was known to be right, as 2026-02-20"),
        text("why", "How did it come to light?", ("its certificate", "reference specimen", "comparison")),
    )


def _found_out(desk: Desk, values: Values) -> None:
    number, workshop = str(values["number"]), desk.workshop
    told = {"by": str(values["error"]), "last_good": str(values["last_good"]), "why": str(values["why"])}
    undo = Undo(anew=lambda act: clear(act, number, "", why="taken back at once"))
    desk.shop_act(lambda act: found_out(act, number, **told), f"Instrument {number} is found out.", undo=undo)
    used = [workshop.job(job).job for job in workshop.jobs_with(number)]
    touched = [one for job in used for one in touched_by_instrument(job, number)]
    again, jobs = sum(one.becomes == DOUBTFUL for one in touched), {one.job for one in touched}
    desk.say(
        f"{counted(len(touched), 'reading')} in {counted(len(jobs), 'job')} touched, {again} due again. "
        "The notices: shop recall.",
        UNSURE,
    )


FORMS = (
    Form("instrument", "instrument", _ask_instrument, _instrument),
    Form("found out", "instrument found out", _ask_found_out, _found_out),
)
