"""One label: a number and what is written beside it, for each kind of thing that has a number. Knows no paper."""

from __future__ import annotations

from collections.abc import Iterable

from attrs import field, frozen

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.kinds.registers import Instrument, Kept, Person
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.parts.instrument import instruments
from teardown_app.domain.parts.parts import number_of, own_place, parts_of_number
from teardown_app.domain.places.hardware import bag_of, surplus
from teardown_app.domain.shop.shop import Shop
from teardown_app.domain.tags.tag import TagFault, is_ours
from teardown_app.domain.tags.tag_form import LETTERS
from teardown_app.labels.lettering import has_shaping, lacking, needs_shaping


def _one_of_ours(_label: object, _field: object, number: str) -> None:
    if not is_ours(number):
        raise TagFault(f"{number!r} is not a number as it is printed; no label can be made of it.")


@frozen
class Label:
    """What one label says: the number, then position, description, job, each on a line of its own.

    The number is printed whole or not at all; a long line is printed smaller and then ended with "…".
    """

    number: str = field(validator=_one_of_ours)
    lines: tuple[str, ...] = ()


def _label(number: str, *lines: str) -> Label:
    return Label(number, tuple(line.strip(" .") for line in lines if line.strip(" .")))


def label_of(job: Job, part: str) -> Label:
    """The label of a part that has a number: number, place, description, job."""
    key = own_place(job, part)
    description = job.positions[key].line.description if key in job.positions else ""
    return _label(number_of(job, part), key, description, job.number)


def blank_label(number: str) -> Label:
    """A label printed ahead: what it is for stands on it, but on those for parts, which are the many."""
    return Label(number) if number[0] == "P" else Label(number, (LETTERS[number[0]],))


def label_of_place(place: Kept) -> Label:
    """The name people call it."""
    return _label(place.number, place.name, place.note)


def label_of_carrier(carrier: Kept) -> Label:
    """A basket, tray or rack by its name."""
    return _label(carrier.number, carrier.name)


def label_of_instrument(one: Instrument) -> Label:
    """What it reads, what it is called, from where to where, and until when its calibration holds."""
    given = [end for end in (one.low, one.high) if end]
    due = f"due {one.due}" if one.due else ""
    return _label(one.number, one.reads, one.name, " to ".join(given), due)


def label_of_person(code: str, person: Person) -> Label:
    """A badge: the code, never a name."""
    return _label(person.badge, code)


def label_of_job(job: Job) -> Label:
    """What people call the job, its order, the tool."""
    serial = job.said("serial")
    tool = f"{job.bill.model} {f'serial {serial}' if serial else ''}"
    return _label(job.number, job.said("name"), f"order {job.said('order')}", tool)


def bags_of(job: Job) -> dict[str, Label]:
    """Labels of the job's hardware bags by number: bag of so many, as are in it now, and where they go back."""
    held: dict[str, list[str]] = {}
    for key, position in job.positions.items():
        heads = job.heads(position_thing(key), "found") if position.line.kind == "hardware" else ()
        bag = str(heads[-1].record.body.get("bag") or "") if heads else ""
        if is_ours(bag):
            held.setdefault(bag, []).append(key)
    return {
        bag: _label(bag, f"bag of {_inside(job, keys)}", _hardware(job, keys), job.number) for bag, keys in held.items()
    }


def _inside(job: Job, keys: list[str]) -> int:
    """Places that were counted together share what is in the bag."""
    together = {tuple(sorted(bag_of(job, key))): key for key in keys}
    return sum(max(0, surplus(job, key)) for key in together.values())


def _hardware(job: Job, keys: list[str]) -> str:
    said = dict.fromkeys(job.positions[key].line.description for key in keys)
    return f"{', '.join(said)} · {', '.join(keys)}"


def label_of_number(number: str, shop: Shop, job: Job | None = None) -> Label | None:
    """The label of a number as it would be printed now; None where nothing is recorded behind it."""
    if job is not None and number == job.number:
        return label_of_job(job)
    if job is not None and number[0] == "P":
        found = parts_of_number(job, number)
        return _label_under(number, job, found[0]) if found else None
    if job is not None and number[0] == "H":
        return bags_of(job).get(number)
    return next((one for what in OF_THE_SHOP for one in labels_of(shop, what) if one.number == number), None)


def _label_under(number: str, job: Job, part: str) -> Label:
    """An older number still stands for its part: printed again it says the same."""
    return Label(number, label_of(job, part).lines)


OF_THE_SHOP = ("places", "carriers", "instruments", "people")


def labels_of(shop: Shop, what: str) -> list[Label]:
    """Labels of everything of one kind in the shop's registers that has a number."""
    if what == "people":
        known = sorted(shop.people().items())
        return [label_of_person(code, one) for code, one in known if one.badge and not one.revoked]
    if what == "places":
        return [label_of_place(one) for one in shop.places() if is_ours(one.number)]
    if what == "carriers":
        return [label_of_carrier(one) for one in shop.carriers() if is_ours(one.number)]
    return [label_of_instrument(one) for one in instruments(shop) if is_ours(one.number)]


def lacking_said(labels: Iterable[Label]) -> str:
    """Which letters of the labels cannot be shown, on the first label of which, and why, in words; empty for none."""
    missed = {label.number: "".join(map(lacking, label.lines)) for label in labels}
    letters = "".join(dict.fromkeys("".join(missed.values())))
    if not letters:
        return ""
    number = next(one for one, some in missed.items() if some)
    why = "" if has_shaping() or not needs_shaping(letters) else " What joins letters (uharfbuzz) is not installed."
    return f"The letters of labels lack {' '.join(letters)} (label {number}): an empty box stands for each.{why}"
