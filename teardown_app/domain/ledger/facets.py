"""The facets, one table: how entries of one become one value and what it is called; and the orders behind it.

Heads: an entry replaces those its author had seen; where several different ones remain, the safer
value holds and a person has to settle it. Union: all entries count. Sum: signed numbers add up.
Worst: like heads, but a milder entry replaces a more severe one only by somebody with the right.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any, NamedTuple

from teardown_app.domain.ledger.kinds.kind import on_disk
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


class Facet(NamedTuple):
    """One facet, whatever things it is of.

    `safer` picks the value that holds while several different ones stand. `decisive` is the part of a
    value that makes two entries different. `settles` is true where different ones wait for a person.
    `returns` says whether a value that an entry had replaced holds again once that entry is taken back.
    `replaces` (later, earlier) says which values a later one can replace; None: all. `says` is what differs, in words,
    empty for its name. `fact` is how a fact of a part is called whose taking back narrows, empty for any other.
    """

    rule: str
    safer: Safer
    decisive: Callable[[Any], Any] = _itself
    settles: bool = True
    returns: Callable[[Any], bool] = _always
    replaces: Callable[[Any, Any], bool] | None = None
    says: str = ""
    fact: str = ""


def _first(values: Sequence[Any]) -> Any:
    """No value is safer: the first in text order, so that every tablet shows the same one."""
    return min(values, key=lambda value: value if isinstance(value, str) else on_disk(value))


def _all_named(values: Sequence[Any]) -> Any:
    """Everything that one of the lists names, in the order of texts."""
    return sorted({name for value in values for name in value})


def _nothing(values: Sequence[Any]) -> Any:
    """While entries differ it is not filled, not fitted, not renewed."""
    return None


def _by(order: Sequence[str], name: str, pick: Callable[..., Any]) -> Safer:
    """The least (`min`) or greatest (`max`) value, by the place of its field `name` in `order`."""
    return lambda values: pick(values, key=lambda value: (order.index(getattr(value, name)), on_disk(value)))


def _in_scope(values: Sequence[Any]) -> Any:
    return min(values, key=lambda value: (_COUNTS.index(value.counts), on_disk(value)))


def _fewest_rights(values: Sequence[Any]) -> Any:
    """Rights that all entries give, until the earliest day, revoked where one of them says so."""
    fewest = {
        "rights": sorted(set.intersection(*(set(value.rights) for value in values))),
        "until": min((value.until for value in values if value.until), default=""),
        "revoked": any(value.revoked for value in values),
    }
    first = _first(values)
    return first._replace(**fewest, body={**first.body, **fewest})


def _fewest_found(values: Sequence[Any]) -> Any:
    return min(values, key=lambda value: (value.found, on_disk(value)))


def _out_wins(values: Sequence[Any]) -> Any:
    return min(values, key=lambda value: (not value.out, on_disk(value)))


def _highest_last(values: Sequence[Any]) -> Any:
    """Of what was said to be the last number of a tablet the highest; lost is what all that say so name."""
    last = max(value["last"] for value in values)
    lost = [{*value["without"]} for value in values if value["last"] == last]
    return {"last": last, "without": sorted(set.intersection(*lost))}


def _soonest_due(values: Sequence[Any]) -> Any:
    """Out of use where one of them says so, else the one whose calibration is due first."""
    return min(values, key=lambda value: (not value.out, value.due, on_disk(value)))


def _perhaps_printed(values: Sequence[Any]) -> Any:
    """While tablets differ, somebody has to look at the printer."""
    return _first(values)._replace(word=SENT)


def _names_all(later: Any, earlier: Any) -> bool:
    """A count replaces only counts all of whose places it names."""
    return set(earlier.places) <= set(later.places)


def severity(disposition: str) -> int:
    """0 for *use as is* up to 5 for *scrap*."""
    return DISPOSITIONS.index(disposition)


HEADS = Facet("heads", _first)
UNION = Facet("union", _first, settles=False)
SUM = Facet("sum", _first, settles=False)
UNFILLED = Facet("heads", _nothing, settles=False)

FACETS: dict[str, Facet] = {
    # the job
    "opened": UNION,
    "order": HEADS,
    "name": HEADS,
    "serial": HEADS,
    "due": HEADS,
    "options": Facet("heads", _all_named),
    "end": Facet("heads", lambda values: "open", settles=False),
    "scope": Facet(
        "heads",
        _in_scope,
        lambda value: value.word,
        returns=lambda value: value.counts == "in",
        says="what was received",
    ),
    "line": UNION,
    "photo": UNION,
    "concession": UNION,
    "signature": UNION,
    "voided": UNION,
    # a part
    "made": UNION,
    "came_out": UNION,
    "part_number": HEADS._replace(fact="part number"),
    "out_of": HEADS._replace(says="where it came out of", fact="came out of"),
    "origin": HEADS._replace(fact="origin"),
    "set_mark": HEADS._replace(fact="set mark"),
    "owner": HEADS._replace(fact="owner"),
    "meant_for": HEADS._replace(says="where it goes"),
    "condition": HEADS,
    "place": HEADS,
    "written": HEADS,
    "number": Facet("heads", _first, settles=False),
    "bound": UNION,
    "same_as": UNION,
    "finding": UNION,
    "of": UNION,
    "says": UNION,
    "approval": Facet(
        "heads",
        _by(APPROVALS, "word", max),
        lambda value: value.word,
        returns=lambda value: value.word not in ("covered", "approved"),
        says="the customer's answer",
    ),
    "disposition": Facet("worst", lambda values: max(values, key=severity), returns=_never),
    "hold": UNION,
    "lifted": UNION,
    "handed_over": UNION,
    "taken_over": UNION,
    "given_back": UNION,
    # work on it
    "check": Facet(
        "heads",
        _by(_VERDICTS, "verdict", max),
        lambda value: value.verdict,
        returns=lambda value: value.verdict != "accept",
    ),
    "operation": Facet(
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
    "found": Facet(
        "heads",
        _fewest_found,
        lambda value: (value.found, value.places),
        replaces=_names_all,
        says="what was found",
    ),
    **dict.fromkeys(MOVES, SUM),
    "opened_joint": UNION,
    "torque": UNION,
    "renewal": Facet(
        "heads",
        _nothing,
        lambda value: (value.word, value.lot, value.expiry),
        returns=_never,
        says="its renewal",
    ),
    "temporary": UNFILLED,
    "what": UNION,
    # the shop
    "person": Facet("heads", _fewest_rights),
    "joined": UNION,
    "retired": Facet("heads", _highest_last, settles=False),
    "known_place": Facet("heads", _out_wins),
    "carrier": Facet("heads", _out_wins),
    "instrument": Facet("heads", _soonest_due),
    "found_out": UNION,
    "cleared": UNION,
    "issued": UNION,
    "label": Facet("heads", _perhaps_printed, lambda value: value.word, settles=False),
    "label_voided": UNION,
}
"""Name of a facet (before its `/`) -> its row."""


def facet_of(name: str) -> Facet:
    """The row of a facet, whatever its suffix."""
    return FACETS[name.partition("/")[0]]
