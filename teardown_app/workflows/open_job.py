"""A job is opened from a bill: its number, its order, the tool, and the bill frozen with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.job.job import RULES
from teardown_app.domain.ledger.record import SHOP, Draft
from teardown_app.domain.ledger.times import is_day
from teardown_app.workflows.act import Drafts, ShopAct, refuse
from teardown_app.workflows.deed import by_hand


def open_job(
    act: ShopAct,
    bill: Bill,
    *,
    digest: str,
    number: str,
    order: str,
    serial: str,
    name: str = "",
    due: str = "",
    options: Sequence[str] = (),
    drawings: Mapping[str, str] | None = None,
) -> Drafts:
    """The opening of a job. `number` is a job number of this tablet, `digest` the frozen bill's SHA-256,
    `drawings` those of its drawings by the names that the bill gives them."""
    act.needs("office")
    if not order.strip():
        refuse("A job needs the customer's order reference.", "Give it.")
    if not serial.strip():
        refuse("A job is one tool.", "Give the serial number on its plate.")
    if due:
        check_day(due)
    check_options(bill, options)
    body = {
        "number": number,
        "letters": number[1:5],
        "order": order.strip(),
        "serial": serial.strip(),
        "options": list(options),
        "bill": digest,
        "model": bill.model,
        "revision": bill.revision,
        "rules": RULES,
    }
    if drawings:
        body["drawings"] = dict(drawings)
    body |= {key: text for key, text in (("name", name.strip()), ("due", due)) if text}
    return [Draft(number, "job.opened", ("job",), body)]


def check_options(bill: Bill, options: Sequence[str]) -> None:
    """Refuses options that no line of the bill names."""
    known = sorted({one.strip() for line in bill.lines for one in line.option.split(";") if one.strip()})
    for option in options:
        if option.strip().casefold() not in {one.casefold() for one in known}:
            refuse(
                f"The bill of {bill.model} has no option {option}.",
                f"Its options are {', '.join(known)}." if known else "It has no options.",
            )


def check_day(text: str) -> None:
    """Refuses what is no day as records hold it."""
    if not is_day(text):
        refuse(f"{text} is no day.", "Write it as 2026-03-14.")


OPEN_JOB = by_hand("job open", SHOP, "Job {number} is open: {model}, {places} places.", "job.opened", "numbers.issued")
