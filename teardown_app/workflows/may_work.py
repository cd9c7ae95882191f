"""May work go on with this part? Holds, answers awaited, waits, and what harms its material."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Operation
from teardown_app.domain.bill.materials import Materials
from teardown_app.domain.nouns.conceding import is_conceded, refs
from teardown_app.domain.nouns.filling import GONE, handed_over, places_of
from teardown_app.domain.nouns.naming import named
from teardown_app.domain.nouns.parts import (
    approval_of,
    behind_finding,
    disposition_of,
    open_holds,
    own_place,
    waiting_findings,
    why_of,
    word_of,
)
from teardown_app.domain.nouns.routing import IRREVERSIBLE, waits_open
from teardown_app.workflows.act import Act, refuse


def check_work(act: Act, part: str, operation: Operation, materials: Materials) -> None:
    """Refuses work on a part that must not, or not yet, be worked on."""
    check_not_fitted(act, part)
    check_goes_on(act, part)
    check_no_hold(act, part)
    _check_answered(act, part, operation)
    _check_waits(act, part)
    _check_material(act, part, operation, materials)


def check_not_fitted(act: Act, part: str) -> None:
    """Refuses while the part is in the tool."""
    places = places_of(act.job, part)
    if places:
        there = ", ".join(named(act.job, key) for key in places)
        refuse(f"{act.name(part)} is fitted in {there}.", "Take it out first, with the reason: part out.")


def check_goes_on(act: Act, part: str) -> None:
    """Refuses for a part that is not to go back into the tool."""
    word = disposition_of(act.job, part)
    if word in GONE:
        refuse(f"{act.name(part)} is dispositioned {word}.", "Give it another disposition, or take another part.")
    if handed_over(act.job, part):
        to = act.job.entries(part, "handed_over")[0].value["to"]
        refuse(f"{act.name(part)} was handed over to job {to}.", "Record that it was given back first.")


def check_no_hold(act: Act, thing: str) -> None:
    """Refuses while a hold is open that nobody conceded."""
    place = thing[1:] if thing.startswith("@") else ""
    name = named(act.job, place) if place else act.name(thing)
    for hold in open_holds(act.job, thing):
        if not is_conceded(act.job, "hold", place or thing, hold.value, refs([hold])):
            refuse(f"{name} is on hold: {why_of(act.job, hold)}.", "Have the hold lifted first: part lift.")


def _check_answered(act: Act, part: str, operation: Operation) -> None:
    """Work that cannot be taken back waits for the customer's answer."""
    if not is_irreversible(operation):
        return
    for finding in waiting_findings(act.job, part):
        if is_conceded(act.job, "approval waiting", part, finding, behind_finding(act.job, part, finding)):
            continue
        reference = (approval_of(act.job, finding) or {}).get("reference", "")
        asked = f" (asked: {reference})" if reference else " (nobody asked yet)"
        refuse(
            f"{act.name(part)}: {operation.id} cannot be taken back, and the finding "
            f"{word_of(act.job, finding)} waits for the customer's answer{asked}.",
            "Record the answer first, with its reference.",
        )


def is_irreversible(operation: Operation) -> bool:
    """True for trades whose work cannot be taken back."""
    words = operation.trade.casefold().split()
    return any(trade in words for trade in IRREVERSIBLE)


def _check_waits(act: Act, part: str) -> None:
    for operation, left in waits_open(act.job, part, act.now):
        clock = "" if act.now.clk == "ok" else "; this tablet's clock cannot be trusted"
        refuse(
            f"{act.name(part)} rests after {operation.id} for another {left:.1f} h{clock}.",
            "Wait, or have it recorded as over by somebody with the right to release: part wait-over.",
        )


def _check_material(act: Act, part: str, operation: Operation, materials: Materials) -> None:
    position = act.job.positions.get(own_place(act.job, part))
    material = position.line.material if position else ""
    harm = materials.harm(operation, material) if material else ""
    if harm:
        refuse(f"{act.name(part)} is of {material}: {harm}.", f"Do not do {operation.id} on it: skip it by name.")
