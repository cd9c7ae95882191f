"""Forms of the office: a job from a bill, people, places, the size of the glass; and the search.

Bills bring large libraries with them, which are loaded when they are first needed: the first screen does not wait
for them. Labels have forms of their own (`labels.py`).
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from teardown_app.domain.ledger.kinds.kind import RIGHTS
from teardown_app.domain.ledger.kinds.registers import Person
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text
from teardown_app.ui.recording import Undo
from teardown_app.ui.slow import Report
from teardown_app.ui.view import ACCEPT, NUMBER, TAG, Field
from teardown_app.workflows.act import Drafts, ShopAct, refuse
from teardown_app.workflows.open_job import check_day
from teardown_app.workflows.shop import add_place, drop_place, give_rights, revoke

if TYPE_CHECKING:
    from teardown_app.intake.bill import Reading
    from teardown_app.ui.desk import Desk

BAR_MM = 80.0
ALL_RIGHTS = "all"
RIGHT_SETS = {
    "record": ("record",),
    "record and release": ("record", "release"),
    "bench lead": ("record", "release", "scrap", "concede", "sign"),
    "office": ("record", "office", "concede", "sign"),
    ALL_RIGHTS: RIGHTS,
}
"""Sets of rights as they are commonly given together: common practice, no source."""


def _ask_job(desk: Desk, values: Values) -> Field | None:
    return first_open(
        values,
        text("order", f"{values['name']}: the customer's order reference"),
        text("serial", "Serial number on the tool's plate"),
        text("called", "What do you call this job?", may_be_empty=True),
        text("due", "Due day, as 2026-12-18", may_be_empty=True),
    )


def _open_job(desk: Desk, values: Values) -> None:
    """Reads the bill off the screen's thread, then opens the job."""
    path, due = Path(str(values["bill"])), str(values.get("due", "")).strip()
    if due:
        check_day(due)
    desk.session.who()

    def read(report: Report) -> Reading:
        from teardown_app.intake.bill import read_bill

        report("every row and reference")
        return read_bill(path, desk.workshop.materials)

    desk.slow.start(f"Checking the bill {path.name}:", read, lambda reading: _opened(desk, values, path, reading))


def _opened(desk: Desk, values: Values, path: Path, reading: Reading) -> None:
    bill = reading.bill
    if bill is None:
        first = "; ".join(f"{one.file} row {one.row}: {one.message}" for one in reading.faults[:3])
        refuse(f"{path.name} has {len(reading.faults)} faults: {first}", "Have the bill corrected, then open it again.")
    number, _ = desk.workshop.open_from_bill(
        bill,
        path if path.is_dir() else path.parent,
        desk.session.who(),
        order=str(values["order"]),
        serial=str(values["serial"]),
        name=str(values.get("called", "")),
        due=str(values.get("due", "")).strip(),
    )
    desk.job_number = number
    said = f"Job {number} is open: {bill.model}, {reading.positions} places."
    desk.recording.confirm(" ".join([said, *desk.workshop.twins(number, str(values["order"]), str(values["serial"]))]))
    desk.go("jobs", at=number)


NO_MORE = "nothing any more"


def _ask_person(desk: Desk, values: Values) -> Field | None:
    code = str(values.get("code", "")).upper().strip()
    asks = [
        text("code", "Initials: 2 to 6 letters or digits, no name"),
        choose("rights", f"What may {code} do?", (*RIGHT_SETS, NO_MORE)),
    ]
    if values.get("rights") in RIGHT_SETS:
        has = _known(desk, code).badge
        hint = f"Has {has}; OK keeps it." if has else "A badge is a label for people, from a roll. OK goes on without."
        asks.append(Field("badge", f"Scan the badge of {code}", TAG, hint=hint, may_be_empty=True, wants="W"))
    return first_open(values, *asks)


def _known(desk: Desk, code: str) -> Person:
    """What the register says of a person; without a body where it says nothing."""
    return desk.workshop.shop.people().get(code) or Person(code, [])


def _person(desk: Desk, values: Values) -> None:
    code = str(values["code"]).upper().strip()
    before = _known(desk, code)
    rights = RIGHT_SETS.get(str(values["rights"]), ())
    badge = str(values.get("badge", "")).strip() or before.badge
    until, qualified = before.until, before.qualifications

    def give(act: ShopAct) -> Drafts:
        if not rights:
            return revoke(act, code)
        return give_rights(act, code, rights=rights, until=until, qualifications=qualified, badge=badge)

    def as_before(act: ShopAct) -> Drafts:
        if not before.body or before.revoked:
            return revoke(act, code)
        return give_rights(act, code, rights=before.rights, until=until, qualifications=qualified, badge=before.badge)

    desk.shop_act(give, f"{code} may {', '.join(rights) or 'do nothing any more'}.", undo=Undo(anew=as_before))


def _place(desk: Desk, values: Values) -> None:
    name = str(values["name"]).strip()
    undo = None if desk.workshop.shop.place(name) else Undo(anew=lambda act: drop_place(act, name))
    desk.shop_act(lambda act: add_place(act, name), f"Place {name}.", undo=undo)


def _glass(desk: Desk, values: Values) -> None:
    entered = str(values["width"]).removesuffix("mm").strip().replace(",", ".")
    try:
        width = float(entered)
    except ValueError:
        refuse(f"{entered} is no length.", "Measure the bar with a ruler: millimetres.")
    desk.measured_glass(BAR_MM, width)
    desk.say("The glass is measured.", ACCEPT)


def _find(desk: Desk, values: Values) -> None:
    desk.asking.close()
    desk.find(str(values["words"]).strip())


FORMS = (
    Form("open job", "new job", _ask_job, _open_job),
    Form("person", "person", _ask_person, _person),
    Form(
        "place", "place", lambda _, values: first_open(values, text("name", "What do people call it? RACK 3-2")), _place
    ),
    Form(
        "glass",
        "size of the glass",
        lambda desk, values: first_open(
            values, Field("width", "Measure the bar with a ruler. How long is it?", NUMBER, unit="mm", bar_mm=BAR_MM)
        ),
        _glass,
    ),
    Form(
        "find",
        "search",
        lambda _, values: first_open(values, text("words", "Number, position or words", hint="P7K3… · 20.30 · seal")),
        _find,
    ),
)
