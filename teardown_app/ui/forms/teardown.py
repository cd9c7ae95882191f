"""Forms of the teardown bench: labels, places to lie, counts, what was received, extra parts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.next.next_off import is_off
from teardown_app.domain.parts.naming import named
from teardown_app.domain.tags.tag import parse
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text, whole
from teardown_app.ui.view import COUNT, TAG, Field
from teardown_app.workflows.act import Act, Drafts
from teardown_app.workflows.configuration import received
from teardown_app.workflows.count import count
from teardown_app.workflows.label_queue import queue_for
from teardown_app.workflows.number import put_label, relabel
from teardown_app.workflows.put import put
from teardown_app.workflows.take_off import take_off

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


def places_known(desk: Desk) -> list[str]:
    """Names of places and carriers, as words to choose."""
    shop = desk.workshop.shop
    return [one.name for one in shop.places()] + [one.number for one in shop.carriers()]


def _place(desk: Desk) -> Field:
    return text("place", "Where is it put? A spot in a tray: TRAY 4/B3", places_known(desk))


def _ask_off(desk: Desk, values: Values) -> Field | None:
    if values.get("with") == "label":
        return first_open(values, Field("number", "Scan the label, or type its number", TAG))
    if values.get("with") == "place":
        return first_open(values, _place(desk))
    return None


def _off(desk: Desk, values: Values) -> None:
    key = str(values.get("key", ""))
    place = str(values.get("place", "")).strip()
    number, issued, queued = str(values.get("number", "")), [], values.get("with") == "new"
    if queued:
        numbers, draft = desk.workshop.new_numbers("P", 1)
        number, issued = numbers[0], [draft]
    how = str(values.get("how") or "taken off")
    name = named(desk.job, key) or "Extra part"

    def build(act: Act) -> Drafts:
        off = take_off(
            act,
            key,
            number=number,
            place=place,
            how=how,
            condition=str(values.get("condition", "")),
            note=str(values.get("note", "")),
            elsewhere=desk.elsewhere,
            conditions=desk.workshop.words["conditions"],
        )
        return [*off, *queue_for(act, number)] if queued else off

    records = desk.act(build, f"{name} {how}: {number or place}", first=issued)
    part = next(record.thing() for record in records if record.typ == "part.taken_off")
    if number and not queued:
        desk.labels.put_on(parse(number).number)
    desk.screen.came_off(part)


def _ask_extra(desk: Desk, values: Values) -> Field | None:
    return first_open(
        values,
        text("note", "What is it, and where was it found?"),
        choose("with", "How is it kept?", ("label", "place")),
    ) or _ask_off(desk, values)


def _ask_put(desk: Desk, values: Values) -> Field | None:
    return first_open(values, _place(desk))


def _put(desk: Desk, values: Values) -> None:
    part, place = str(values["part"]), str(values["place"]).strip()
    desk.act(lambda act: put(act, [part], place), f"{desk.look.name(part)} is in {place}.")


def _ask_tray(desk: Desk, values: Values) -> Field | None:
    among = dict(values.get("among", ()))
    if among:
        return first_open(values, choose("place", "Several are in the picture. Which do the parts go into?", among))
    return _ask_put(desk, values)


def _tray(desk: Desk, values: Values) -> None:
    place = str(values["place"]).strip()
    desk.screen.take(dict(values.get("among", ())).get(place, place))  # type: ignore[attr-defined]


ALL_NAMED = "that is all"


def _others(values: Values) -> list[str]:
    """Places that share the bag, in the order in which they were named."""
    names = [str(said) for name, said in values.items() if name.startswith("other ")]
    return [name.split()[0] for name in names if name != ALL_NAMED]


def _ask_count(desk: Desk, values: Values) -> Field | None:
    key = str(values["key"])
    if values.get("shared") and ALL_NAMED not in values.values():
        job, named_so_far = desk.job, {key, *_others(values)}
        left = [
            f"{one.key}  {one.line.description}"
            for one in job.positions.values()
            if one.line.kind == "hardware" and one.key not in named_so_far and not is_off(job, one.key)
        ]
        asks = f"{named(job, key)}: whose screws are in the same bag?"
        return choose(f"other {len(named_so_far)}", asks, (ALL_NAMED, *left))
    wanted = sum(desk.job.positions[one].count or 0 for one in (key, *_others(values)))
    asks = f"{named(desk.job, key)}: how many were found?"
    offered = (f"{wanted}, all of them",) if wanted else ()
    return first_open(values, Field("found", asks, COUNT, choices=offered, hint=f"Belong there: {wanted}"))


def _count(desk: Desk, values: Values) -> None:
    found, key = whole(values, "found"), str(values["key"])
    keys = [key, *_others(values)]
    bag = str(values.get("bag", ""))
    into = f" into bag {bag}" if bag else ""
    desk.act(lambda act: count(act, keys, found, bag=bag), f"{named(desk.job, key)}: {found} counted{into}.")


RECEIVED = ("not on this tool", "not received", "out of scope", "left fitted", "received short", "received complete")


def _ask_received(desk: Desk, values: Values) -> Field | None:
    name = named(desk.job, str(values["key"]))
    word = choose("word", f"{name}: how was it received?", RECEIVED)
    if values.get("word") == "received complete":
        return None
    return first_open(values, word, text("why", "Why, or who said so?", ("seen at teardown", "packing list", "order")))


def _received(desk: Desk, values: Values) -> None:
    key, word = str(values["key"]), str(values["word"])
    desk.act(lambda act: received(act, [key], word, why=str(values.get("why", ""))), f"{named(desk.job, key)}: {word}.")


def _ask_label(desk: Desk, values: Values) -> Field | None:
    asks = [Field("number", "Scan the new label, or type its number", TAG)]
    if values.get("old"):
        asks.append(text("why", "What became of the old label?", ("came off", "cannot be read")))
    return first_open(values, *asks)


def _label(desk: Desk, values: Values) -> None:
    part, number = str(values["part"]), str(values["number"])
    if values.get("old"):
        desk.act(
            lambda act: relabel(act, part, number=number, why=str(values["why"]), elsewhere=desk.elsewhere),
            f"New label {number}.",
        )
    else:
        desk.act(
            lambda act: put_label(act, part, number=number, elsewhere=desk.elsewhere),
            f"Label {number}.",
        )


FORMS = (
    Form("take off", "taking off", _ask_off, _off),
    Form("extra part", "extra part", _ask_extra, _off),
    Form("put", "where it lies", _ask_put, _put),
    Form("tray", "a tray", _ask_tray, _tray),
    Form("count", "counting", _ask_count, _count),
    Form("received", "as received", _ask_received, _received),
    Form("label", "label", _ask_label, _label),
)
