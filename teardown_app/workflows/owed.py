"""What one job owes another: how many, and under which name the job that took it over has it."""

from __future__ import annotations

from typing import NoReturn

from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.parts.going_back import handed_over
from teardown_app.domain.parts.parts import parts
from teardown_app.domain.places.hardware import surplus
from teardown_app.workflows.act import Act, refuse
from teardown_app.workflows.called import thing_of


def count_back(giver: Act, thing: str, to: str, quantity: int | None) -> int:
    """How many go back: all that are owed where no quantity is named, and never more."""
    due = handed_over(giver.job, thing, to)
    if due <= 0:
        _not_owed(giver, thing, to)
    count = due if quantity is None else quantity
    if not 0 < count <= due:
        refuse(f"{count} of {giver.name(thing)} cannot be given back: job {to} owes {due}.", "Count again.")
    return count


def _not_owed(giver: Act, thing: str, to: str) -> NoReturn:
    name = giver.name(thing)
    others = {one.value.job for one in giver.job.entries(thing, "handed_over")}
    debtors = sorted(other for other in others if handed_over(giver.job, thing, other) > 0)
    if debtors:
        refuse(f"{name} went to job {' and '.join(debtors)}, not to {to}.", "Name that job.")
    refuse(f"{name} is not owed by any job.", "Nothing needs to be given back.")


def taken(giver: Act, taker: Act, thing: str) -> str:
    """What the taking job calls it; of several hardware places the one with the fullest bag."""
    if is_position(thing):
        places = [thing_of(one) for one in taker.job.positions.values()]
        there = [one for one in places if _came_by(giver, taker, thing, one)]
        there.sort(key=lambda one: surplus(taker.job, one[1:]), reverse=True)
    else:
        mine = [one for one in parts(taker.job) if _came_by(giver, taker, thing, one)]
        there = [one for one in mine if not _is_back(giver, taker, one)]
    if not there:
        refuse(
            f"Job {taker.job.number} has no record that it took {giver.name(thing)} over.",
            "Read in first what the other tablets recorded of it.",
        )
    return there[0]


def _is_back(giver: Act, taker: Act, part: str) -> bool:
    return any(one.value.job == giver.job.number for one in taker.job.entries(part, "given_back"))


def _came_by(giver: Act, taker: Act, thing: str, here: str) -> bool:
    """True where the taking job's part or place took this very thing over."""
    took = [entry.value for entry in taker.job.entries(here, "taken_over")]
    alike = giver.job.group(thing)
    return any(goods.job == giver.job.number and goods.thing in alike for goods in took)
