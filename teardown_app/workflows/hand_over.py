"""Parts and hardware handed over from one job to another, with the consent of whom they belong to, and given back."""

from __future__ import annotations

from teardown_app.domain.against.leaving import against_bring_in
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.ledger.record import is_position
from teardown_app.domain.parts.claiming import places_of
from teardown_app.domain.parts.going_back import GONE, handed_over
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import disposition_of, number_of, open_holds, part_number_of, parts_of_number
from teardown_app.domain.places.hardware import surplus
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.approval import what_waits
from teardown_app.workflows.bring_in import check_fits
from teardown_app.workflows.called import in_scope, place_meant, thing_of
from teardown_app.workflows.owed import count_back, taken


def hand_over(giver: Act, taker: Act, thing: str, key: str, *, consent: str, quantity: int = 1) -> Drafts:
    """Records for both jobs, in one act. `thing` is the giver's, `key` a place of the taker."""
    _check_jobs(giver, taker)
    taker.working()
    if not consent.strip():
        refuse(
            f"{giver.name(thing)} goes from one customer's tool into another's only with consent.",
            "Give its reference.",
        )
    if is_position(thing):
        return _hardware(giver, taker, thing, key, consent, quantity)
    return _part(giver, taker, thing, key, consent)


def _check_jobs(giver: Act, taker: Act) -> None:
    giver.working("office")
    taker.working("office")
    if giver.job.number == taker.job.number:
        refuse(f"Both are job {giver.job.number}.", "Name the other job.")


def _part(giver: Act, taker: Act, part: str, key: str, consent: str) -> Drafts:
    _check_free(giver, part)
    position = place_meant(taker, key, "assembly", "part")
    in_scope(taker, position)
    number, tag = part_number_of(giver.job, part), number_of(giver.job, part)
    check_fits(taker, position, number)
    refuse_for(against_bring_in(taker.job, position))
    if tag and parts_of_number(taker.job, tag):
        refuse(
            f"{taker.name(parts_of_number(taker.job, tag)[0])} has that number in job {taker.job.number} already.",
            "If it goes back there, record that. Else put a new label on it.",
            "part give-back",
        )
    gives = giver.draft("goods.handed_over", (part,), to=taker.job.number, quantity=1, consent=consent)
    takes = taker.draft(
        "goods.taken_over",
        ("new:1",),
        of=giver.job.number,
        goods=part,
        part_number=number,
        number=tag or None,
        meant_for=position.key,
        origin="other job",
        quantity=1,
        consent=consent,
    )
    return [gives, takes]


def _check_free(giver: Act, part: str) -> None:
    """Refuses a part that does not leave its job as it is."""
    name = giver.name(part)
    fitted = places_of(giver.job, part)
    if fitted:
        refuse(f"{name} is fitted in {named(giver.job, fitted[0])}.", "Take it out first.", "part out")
    if open_holds(giver.job, part):
        refuse(f"{name} is on hold.", "Lift the hold first.", "part lift")
    if handed_over(giver.job, part):
        refuse(f"{name} was handed over already.", "Look where it went.", "part show")
    if disposition_of(giver.job, part) == "scrap":
        refuse(f"{name} is dispositioned scrap.", "If it is good after all, judge it again first.", "part judge")
    waits = what_waits(giver, part)
    if waits:
        refuse(
            f"{name} does not leave its job while a finding waits for the customer: {waits}.",
            "Record the answer first.",
            "finding answer",
        )


def _hardware(giver: Act, taker: Act, thing: str, key: str, consent: str, quantity: int) -> Drafts:
    _check_bag(giver, thing, quantity, "handed over")
    position = place_meant(taker, key, "hardware")
    in_scope(taker, position)
    check_fits(taker, position, _place(giver, thing).line.part_number)
    body = {"quantity": quantity, "consent": consent}
    gives = giver.draft("goods.handed_over", (thing,), to=taker.job.number, **body)
    leaves = giver.draft("hardware.moved", (thing,), added=-quantity, why=f"handed over to {taker.job.number}")
    takes = taker.draft("goods.taken_over", (thing_of(position),), of=giver.job.number, goods=thing, **body)
    return [gives, leaves, takes]


def _place(act: Act, thing: str) -> Position:
    return place_meant(act, thing, "hardware")


def _check_bag(act: Act, thing: str, quantity: int, what: str) -> None:
    there = surplus(act.job, thing[1:])
    if not 0 < quantity <= there:
        refuse(
            f"{quantity} of {named(act.job, thing[1:])} cannot be {what}: {max(there, 0)} are in the bag.",
            f"Count again, or name fewer. Job {act.job.number} can take new ones first.",
            "hardware move",
        )


def give_back(
    giver: Act, taker: Act, thing: str, *, consent: str, quantity: int | None = None, like: bool = False
) -> Drafts:
    """What was handed over comes back; both jobs say so. `thing` is the giver's; no quantity means all.

    `like`: another part like it comes back, and the part itself stays where it is.
    """
    _check_jobs(giver, taker)
    count = count_back(giver, thing, taker.job.number, quantity)
    if not consent.strip():
        refuse(f"That {giver.name(thing)} is given back needs its reference.", "Say where it is written.")
    there = taken(giver, taker, thing)
    body = {"quantity": count, "consent": consent}
    drafts = [giver.draft("goods.given_back", (thing,), job=taker.job.number, **body)]
    drafts.append(taker.draft("goods.given_back", (there,), job=giver.job.number, **body))
    if is_position(thing):
        return [*drafts, *_bags(giver, taker, thing, there, count)]
    _check_not_lent_on(taker, there)
    return drafts if like else [*drafts, *_leaves(giver, taker, there)]


def _bags(giver: Act, taker: Act, thing: str, taken: str, count: int) -> Drafts:
    """Hardware goes out of one bag into the other."""
    taker.working()
    _check_bag(taker, taken, count, "given back")
    into, out_of = f"given back by {taker.job.number}", f"given back to {giver.job.number}"
    return [
        giver.draft("hardware.moved", (thing,), added=count, why=into),
        taker.draft("hardware.moved", (taken,), added=-count, why=out_of),
    ]


def _check_not_lent_on(taker: Act, taken: str) -> None:
    """Whoever lent it on has it back first: else nobody would see any more that it is owed there too."""
    if handed_over(taker.job, taken):
        to = taker.job.entries(taken, "handed_over")[-1].value.job
        refuse(
            f"{taker.name(taken)} of job {taker.job.number} is with job {to}.",
            f"Record that job {to} gave it back first.",
            "part give-back",
        )


def _leaves(giver: Act, taker: Act, taken: str) -> Drafts:
    """The part itself goes: the job that had it has to have it out, and no longer misses it after."""
    name, fitted = taker.name(taken), places_of(taker.job, taken)
    if fitted:
        refuse(
            f"{name} is fitted in {named(taker.job, fitted[0])} of job {taker.job.number}.",
            "Take it out there first. If another like it comes back, record that.",
            "part give-like",
        )
    word = disposition_of(taker.job, taken)
    if word == "scrap":
        refuse(
            f"{name} is dispositioned scrap.",
            "If another like it comes back, record that. Or judge it again.",
            "part give-like",
        )
    if word in GONE:
        return []
    taker.working()
    body = {"as": "return unrepaired", "why": f"given back to {giver.job.number}"}
    return [taker.draft("disposition.given", (taken,), **body)]
