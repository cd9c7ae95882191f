"""Forms of the office: a job from a bill, people, places, labels, the size of the glass; and the search.

Bills and labels bring large libraries with them, which are loaded when they are first needed: the first
screen does not wait for them.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from teardown_app.domain.kinds.kind import RIGHTS
from teardown_app.domain.parts import number_of, own_place, parts_of_number
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text, whole
from teardown_app.ui.slow import Report
from teardown_app.ui.taking_back import Undo
from teardown_app.ui.view import NUMBER, REJECT, Field
from teardown_app.workflows.act import refuse
from teardown_app.workflows.open_job import check_day, open_job
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
    workshop, by = desk.workshop, desk.session.who()
    act = workshop.shop_act(by)
    act.needs("office")
    number, issued = workshop.job_number()
    digest, drawings = workshop.keep_bill(bill, path if path.is_dir() else path.parent)
    drafts = open_job(
        act,
        bill,
        digest=digest,
        drawings=drawings,
        number=number,
        order=str(values["order"]),
        serial=str(values["serial"]),
        name=str(values.get("called", "")),
        due=str(values.get("due", "")).strip(),
    )
    workshop.record([*issued, *drafts], by)
    desk.job_number = number
    desk.confirm(f"Job {number} is open: {bill.model}, {reading.positions} places.")
    desk.go("jobs", at=number)


def _ask_person(desk: Desk, values: Values) -> Field | None:
    return first_open(
        values,
        text("code", "Initials: 2 to 6 letters or digits, no name"),
        choose("rights", f"What may {values.get('code', '')} do?", (*RIGHT_SETS, "nothing any more")),
    )


def _person(desk: Desk, values: Values) -> None:
    code = str(values["code"]).upper().strip()
    before = desk.workshop.shop.people().get(code)
    rights = RIGHT_SETS.get(str(values["rights"]), ())
    earlier = tuple(before["rights"]) if before and not before.get("revoked") else ()
    undo = Undo(anew=lambda act: give_rights(act, code, rights=earlier) if earlier else revoke(act, code))
    said = f"{code} may {', '.join(rights) or 'do nothing any more'}."
    desk.shop_act(lambda act: give_rights(act, code, rights=rights) if rights else revoke(act, code), said, undo=undo)


def _place(desk: Desk, values: Values) -> None:
    name = str(values["name"]).strip()
    undo = None if desk.workshop.shop.place(name) else Undo(anew=lambda act: drop_place(act, name))
    desk.shop_act(lambda act: add_place(act, name), f"Place {name}.", undo=undo)


def _ask_roll(desk: Desk, values: Values) -> Field | None:
    from teardown_app.labels.stock import read_stocks

    return first_open(
        values,
        Field("count", "How many labels for parts?", NUMBER, choices=("40", "100", "200")),
        choose("stock", "On which stock?", tuple(read_stocks())),
    )


def _roll(desk: Desk, values: Values) -> None:
    from teardown_app.labels.label import Label
    from teardown_app.labels.sheet import sheet_pdf
    from teardown_app.labels.stock import find_stock

    count, stock = whole(values, "count", refuse), find_stock(str(values["stock"]))
    if not 1 <= count <= 2000:
        refuse(f"{count} labels cannot be made at once.", "Take 1 to 2000.")
    by = desk.session.who()
    desk.workshop.shop_act(by).needs("record")
    numbers, draft = desk.workshop.new_numbers("P", count)
    desk.workshop.record([draft], by)

    def write(report: Report) -> bytes:
        report(f"{count} labels")
        return sheet_pdf([Label(number) for number in numbers], stock)

    desk.slow.start("Drawing labels:", write, lambda pdf: desk.keep_labels(pdf, f"roll-{numbers[0]}.pdf"))


def _ask_queued(desk: Desk, values: Values) -> Field | None:
    from teardown_app.labels.stock import read_stocks

    return first_open(values, choose("stock", "On which stock?", tuple(read_stocks())))


def _queued(desk: Desk, values: Values) -> None:
    from teardown_app.labels.label import Label
    from teardown_app.labels.sheet import sheet_pdf
    from teardown_app.labels.stock import find_stock

    queue = desk.labels.waiting()
    if not queue:
        refuse("No label is queued.", "Labels queue up here when parts are tagged without a roll.")
    labels = []
    for number, tag in queue:
        job = desk.workshop.job(number).job
        part = next(iter(parts_of_number(job, tag)), "")
        key = own_place(job, part) if part else ""
        said = job.positions[key].line.description.strip(" .") if key in job.positions else ""
        labels.append(Label(number_of(job, part) if part else tag, tuple(one for one in (key, said, number) if one)))
    desk.keep_labels(sheet_pdf(labels, find_stock(str(values["stock"]))), f"labels-{queue[0][1]}.pdf")
    desk.labels.empty()


def _glass(desk: Desk, values: Values) -> None:
    entered = str(values["width"]).removesuffix("mm").strip().replace(",", ".")
    try:
        width = float(entered)
    except ValueError:
        refuse(f"{entered} is no length.", "Measure the bar with a ruler: millimetres.")
    desk.measured_glass(BAR_MM, width)


def _find(desk: Desk, values: Values) -> None:
    words = str(values["words"]).strip()
    if not words:
        desk.say("Nothing was typed.", REJECT)
        return
    desk.entry = None
    desk.find(words)


FORMS = (
    Form("open job", "new job", _ask_job, _open_job),
    Form("person", "person", _ask_person, _person),
    Form(
        "place", "place", lambda _, values: first_open(values, text("name", "What do people call it? RACK 3-2")), _place
    ),
    Form("roll", "labels", _ask_roll, _roll),
    Form("queued labels", "labels", _ask_queued, _queued),
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
