"""Parts and hardware handed over from one job to another, with the consent of whom they belong to, and given back."""

from __future__ import annotations

from teardown_app.domain.filling import handed_over, place_of
from teardown_app.domain.parts import number_of, open_holds, part_number_of
from teardown_app.domain.points.hardware import surplus
from teardown_app.domain.points.point import named
from teardown_app.domain.record import is_position
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.bring_in import check_fits
from teardown_app.workflows.called import in_scope, place_meant


def hand_over(giver: Act, taker: Act, thing: str, key: str, *, consent: str, quantity: int = 1) -> Drafts:
    """Records for both jobs, in one act. `thing` is the giver's, `key` a place of the taker."""
    giver.working("office")
    taker.working("office")
    if giver.job.number == taker.job.number:
        refuse("Both are the same job.", "Name the job that takes it.")
    if not consent.strip():
        refuse("What belongs to one customer goes into another's tool only with consent.", "Give its reference.")
    if is_position(thing):
        return _hardware(giver, taker, thing, key, consent, quantity)
    return _part(giver, taker, thing, key, consent)


def _part(giver: Act, taker: Act, part: str, key: str, consent: str) -> Drafts:
    fitted = place_of(giver.job, part)
    if fitted:
        refuse(f"{giver.name(part)} is fitted in {named(giver.job, fitted)}.", "Take it out first: part out.")
    if open_holds(giver.job, part):
        refuse(f"{giver.name(part)} is on hold.", "Lift the hold first: part lift.")
    if handed_over(giver.job, part):
        refuse(f"{giver.name(part)} was handed over already.", "Look where it went: part show.")
    position = place_meant(taker, key, "assembly", "part")
    in_scope(taker, position)
    number = part_number_of(giver.job, part)
    check_fits(taker, position, number)
    gives = giver.draft("goods.handed_over", (part,), to=taker.job.number, quantity=1, consent=consent)
    takes = taker.draft(
        "goods.taken_over",
        ("new:1",),
        of=giver.job.number,
        goods=part,
        part_number=number,
        number=number_of(giver.job, part) or None,
        meant_for=key,
        origin="other job",
        quantity=1,
        consent=consent,
    )
    return [gives, takes]


def _hardware(giver: Act, taker: Act, thing: str, key: str, consent: str, quantity: int) -> Drafts:
    there = surplus(giver.job, thing[1:])
    if not 0 < quantity <= there:
        refuse(
            f"{quantity} of {named(giver.job, thing[1:])} cannot be handed over: {max(there, 0)} are in the bag.",
            "Count again, or hand over fewer.",
        )
    position = place_meant(taker, key, "hardware")
    in_scope(taker, position)
    body = {"quantity": quantity, "consent": consent}
    gives = giver.draft("goods.handed_over", (thing,), to=taker.job.number, **body)
    leaves = giver.draft("hardware.moved", (thing,), added=-quantity, why=f"handed over to {taker.job.number}")
    takes = taker.draft("goods.taken_over", (f"@{position.key}",), of=giver.job.number, goods=thing, **body)
    return [gives, leaves, takes]


def give_back(giver: Act, taker: Act, part: str, *, consent: str) -> Drafts:
    """What was handed over has come back, or its like: the debt is settled in the giving job."""
    giver.working("office")
    owed = handed_over(giver.job, part)
    if owed <= 0:
        refuse(f"{giver.name(part)} is not owed by any job.", "Nothing needs to be given back.")
    if not consent.strip():
        refuse("Giving back needs its reference.", "Say where it is written.")
    to = giver.job.entries(part, "handed_over")[-1].value["to"]
    if to != taker.job.number:
        refuse(f"{giver.name(part)} went to job {to}, not to {taker.job.number}.", "Name that job.")
    back = giver.draft("goods.given_back", (part,), job=to, quantity=owed, consent=consent)
    return [back]
