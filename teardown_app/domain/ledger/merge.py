"""How entries of one facet become one value: the table, and the orders behind it.

Heads: an entry replaces those its author had seen; where several different ones remain, the safer
value holds and a person has to settle it. Union: all entries count. Sum: signed numbers add up.
Worst: like heads, but a milder entry replaces a more severe one only by somebody with the right.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from teardown_app.domain.ledger.kinds.job import SCOPES
from teardown_app.domain.ledger.kinds.part import APPROVALS, DISPOSITIONS
from teardown_app.domain.ledger.kinds.reassembly import MOVES
from teardown_app.domain.ledger.kinds.shop import SENT

Safer = Callable[[Sequence[Any]], Any]

_VERDICTS = ("accept", "not possible", "inconclusive", "reject")
_OPERATION = ("started", "stopped", "skipped", "done")
_COUNTS = ("in", "left", "out")


def _itself(value: Any) -> Any:
    return value


def _always(value: Any) -> bool:
    return True


def _never(value: Any) -> bool:
    """A verdict, or what takes a demand away, is given again."""
    return False


class Merge(NamedTuple):
    """Rule of one facet.

    `safer` picks the value that holds while several different ones stand. `decisive` is the part of a
    value that makes two entries different. `settles` is true where different ones wait for a person.
    `returns` says whether a value that an entry had replaced holds again once that entry is taken back.
    `replaces` (later, earlier) says which values a later one can replace; None: all.
    """

    rule: str
    safer: Safer
    decisive: Callable[[Any], Any] = _itself
    settles: bool = True
    returns: Callable[[Any], bool] = _always
    replaces: Callable[[Any, Any], bool] | None = None


def _first(values: Sequence[Any]) -> Any:
    """No value is safer: the first in text order, so that every tablet shows the same one."""
    return min(values, key=lambda value: value if isinstance(value, str) else repr(value))


def _all_named(values: Sequence[Any]) -> Any:
    """Everything that one of the lists names, in the order of texts."""
    return sorted({name for value in values for name in value})


def _nothing(values: Sequence[Any]) -> Any:
    """While entries differ it is not filled, not fitted, not renewed."""
    return None


def _by(order: Sequence[str], name: str, pick: Callable[..., Any]) -> Safer:
    """The least (`min`) or greatest (`max`) value, by the place of its field `name` in `order`."""
    return lambda values: pick(values, key=lambda value: (order.index(value[name]), repr(value)))


def _in_scope(values: Sequence[Any]) -> Any:
    return min(values, key=lambda value: (_COUNTS.index(SCOPES[value["as"]]), repr(value)))


def _fewest_rights(values: Sequence[Any]) -> Any:
    """Rights that all entries give, until the earliest day, revoked where one of them says so."""
    rights = set.intersection(*(set(value["rights"]) for value in values))
    until = min((value["until"] for value in values if value.get("until")), default="")
    revoked = any(value.get("revoked") for value in values)
    return {**_first(values), "rights": sorted(rights), "until": until, "revoked": revoked}


def _fewest_found(values: Sequence[Any]) -> Any:
    return min(values, key=lambda value: (value["found"], repr(value)))


def _out_wins(values: Sequence[Any]) -> Any:
    return min(values, key=lambda value: (not value.get("out"), repr(value)))


def _highest_last(values: Sequence[Any]) -> Any:
    """Of what was said to be the last number of a tablet the highest; lost is what any of these names."""
    last = max(value["last"] for value in values)
    return {"last": last, "without": sorted({n for one in values if one["last"] == last for n in one["without"]})}


def _soonest_due(values: Sequence[Any]) -> Any:
    """Out of use where one of them says so, else the one whose calibration is due first."""
    return min(values, key=lambda value: (not value.get("out"), value.get("due") or "", repr(value)))


def _perhaps_printed(values: Sequence[Any]) -> Any:
    """While tablets differ, somebody has to look at the printer."""
    return {**_first(values), "as": SENT}


def _names_all(later: Any, earlier: Any) -> bool:
    """A count replaces only counts all of whose places it names."""
    return set(earlier["with"]) <= set(later["with"])


def severity(disposition: str) -> int:
    """0 for *use as is* up to 5 for *scrap*."""
    return DISPOSITIONS.index(disposition)


HEADS = Merge("heads", _first)
UNION = Merge("union", _first, settles=False)
SUM = Merge("sum", _first, settles=False)
UNFILLED = Merge("heads", _nothing, settles=False)

MERGES: dict[str, Merge] = {
    # the job
    "opened": UNION,
    "order": HEADS,
    "name": HEADS,
    "serial": HEADS,
    "due": HEADS,
    "options": Merge("heads", _all_named),
    "end": Merge("heads", lambda values: "open", settles=False),
    "scope": Merge("heads", _in_scope, lambda value: value["as"], returns=lambda value: SCOPES[value["as"]] == "in"),
    "line": UNION,
    "photo": UNION,
    "concession": UNION,
    "signature": UNION,
    "voided": UNION,
    # a part
    "made": UNION,
    "came_out": UNION,
    "out_of": HEADS,
    "meant_for": HEADS,
    "part_number": HEADS,
    "owner": HEADS,
    "origin": HEADS,
    "condition": HEADS,
    "place": HEADS,
    "set_mark": HEADS,
    "written": HEADS,
    "number": Merge("heads", _first, settles=False),
    "bound": UNION,
    "same_as": UNION,
    "finding": UNION,
    "of": UNION,
    "says": UNION,
    "approval": Merge(
        "heads",
        _by(APPROVALS, "as", max),
        lambda value: value["as"],
        returns=lambda value: value["as"] not in ("covered", "approved"),
    ),
    "disposition": Merge("worst", lambda values: max(values, key=severity), returns=_never),
    "hold": UNION,
    "lifted": UNION,
    "handed_over": UNION,
    "taken_over": UNION,
    "given_back": UNION,
    # work on it
    "check": Merge(
        "heads",
        _by(_VERDICTS, "verdict", max),
        lambda value: value["verdict"],
        returns=lambda value: value["verdict"] != "accept",
    ),
    "operation": Merge(
        "heads",
        lambda values: min(values, key=_OPERATION.index),
        returns=lambda value: value not in ("done", "skipped"),
    ),
    "wait_over": UNION,
    "released": UNION,
    # putting together
    "fit": UNFILLED,
    "filled": UNFILLED,
    "taken_out": UNION,
    "found": Merge("heads", _fewest_found, lambda value: (value["found"], value["with"]), replaces=_names_all),
    **dict.fromkeys(MOVES, SUM),
    "opened_joint": UNION,
    "torque": UNION,
    "renewal": Merge(
        "heads",
        _nothing,
        lambda value: (value["as"], value.get("lot"), value.get("expiry")),
        returns=_never,
    ),
    "temporary": UNFILLED,
    "what": UNION,
    # the shop
    "person": Merge("heads", _fewest_rights),
    "joined": UNION,
    "retired": Merge("heads", _highest_last, settles=False),
    "known_place": Merge("heads", _out_wins),
    "carrier": Merge("heads", _out_wins),
    "instrument": Merge("heads", _soonest_due),
    "found_out": UNION,
    "cleared": UNION,
    "issued": UNION,
    "label": Merge("heads", _perhaps_printed, lambda value: value["as"], settles=False),
    "label_voided": UNION,
}
"""Facet (before its `/`) -> how it merges."""


def merge_of(facet: str) -> Merge:
    """The rule of a facet, whatever its suffix."""
    return MERGES[facet.partition("/")[0]]
