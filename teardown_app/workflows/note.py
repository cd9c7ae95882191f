"""What is seen of a part: condition, part number on it, owner, origin, serial and lot, where it came out of."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from teardown_app.domain.ledger.kinds.part import ORIGINS
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import came_from
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.called import place_meant
from teardown_app.workflows.condition import check_condition
from teardown_app.workflows.deed import HANDED_IN, PARTS, PLACE, REFERENCE, Deed, Field, one_of
from teardown_app.workflows.take_off import TAKES_PARTS

OWNERS = ("customer", "shop", "other job")


def note(
    act: Act,
    parts: Sequence[str],
    *,
    conditions: Sequence[str],
    condition: str = "",
    part_number: str = "",
    owner: str = "",
    origin: str = "",
    out_of: str = "",
    meant_for: str = "",
    set_mark: str = "",
    serial: str = "",
    lot: str = "",
    written: Mapping[str, str] | None = None,
    says: str = "",
    reference: str = "",
) -> Drafts:
    """Notes what is seen of one part or many. Conditions are the shop's words; others need a sentence (`says`).
    `written` is what else stands on it, by its name."""
    act.working()
    _check_words(conditions, condition, owner, origin, says)
    if out_of:
        _check_place(act, parts, out_of)
    if meant_for:
        place_meant(act, meant_for, *TAKES_PARTS)
    body: dict[str, Any] = {
        "condition": condition,
        "part_number": part_number,
        "owner": owner,
        "origin": origin,
        "out_of": out_of,
        "meant_for": meant_for,
        "set_mark": set_mark,
        "written": {name: text for name, text in (*(written or {}).items(), ("serial", serial), ("lot", lot)) if text},
        "note": says,
    }
    given = {name: value for name, value in body.items() if value}
    if not given:
        refuse("Nothing was noted.", "Say what was seen: condition, part number, serial …")
    if reference.strip():
        given["reference"] = reference.strip()
    return [act.draft("part.noted", tuple(parts), **given)]


def _check_words(conditions: Sequence[str], condition: str, owner: str, origin: str, says: str) -> None:
    if condition:
        check_condition(conditions, condition, says)
    if owner and owner not in OWNERS:
        refuse(f"{owner} is no owner.", f"It is one of {', '.join(OWNERS)}; the customer is never named.")
    if origin and origin not in ORIGINS:
        refuse(f"{origin} is no origin.", f"It is one of {', '.join(ORIGINS)}.")


def _check_place(act: Act, parts: Sequence[str], key: str) -> None:
    if len(parts) > 1:
        refuse("Only one part came out of one place.", "Name one part.")
    place_meant(act, key, *TAKES_PARTS)
    others = [one for one in came_from(act.job, key) if one != act.job.group(parts[0])[0]]
    if others:
        refuse(
            f"{act.name(others[0])} came out of {named(act.job, key)} already.",
            "Put that one right first, or say that they are the same part.",
            "part same",
        )


NOTE = Deed(
    name="part note", about=PARTS, do=note, writes=("part.noted",),
    says="Note what is seen of parts: condition, part number, serial, lot, owner, origin.",
    example="PO-7781 10.20 --condition worn --serial 0417-22 --by MK",
    done="{name}: noted.",
    fields=(Field("conditions", sort=HANDED_IN),
            Field("condition", says="one of the shop's words"),
            Field("part_number", says="the number written on it"),
            Field("owner", says=one_of(OWNERS), offers=lambda act: OWNERS),
            Field("origin", says=one_of(ORIGINS), offers=lambda act: ORIGINS),
            Field("out_of", says="the place it really came out of", sort=PLACE),
            Field("meant_for", says="the place it is to go into", sort=PLACE),
            Field("set_mark", says="mark of the matched set it belongs to"),
            Field("serial"),
            Field("lot"),
            Field("says", says="in your own words"),
            REFERENCE),
)  # fmt: skip
