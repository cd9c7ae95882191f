"""Two tablets that say different things of one thing before either hears of the other: every facet that can differ.

What they say is that of the tables in `tests/state/`; the things are those of this world.
"""

from __future__ import annotations

from random import Random
from typing import Any

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.ledger.kinds import KINDS
from tests.open_points.acts import Bench
from tests.open_points.tablets import SHOP, Tablet
from tests.state.two_tablets import Said
from tests.state.two_tablets_parts import OF_A_PART
from tests.state.two_tablets_places import OF_A_PLACE, OF_THE_JOB
from tests.state.two_tablets_shop import OF_THE_SHOP

CASES = {
    facet: [case for case in (*OF_THE_JOB, *OF_A_PART, *OF_A_PLACE, *OF_THE_SHOP) if case.facet == facet]
    for facet in sorted({case.facet for case in (*OF_THE_JOB, *OF_A_PART, *OF_A_PLACE, *OF_THE_SHOP) if case.differ})
}
PLACES = {"10": ("part", "assembly"), "20": ("hardware",), "30": ("consumable",), "40": ("temporary",)}
"""Keys in the tables -> kinds of the places that they stand for here; 11 and 21 are a second one of the kind."""


def at_odds(tablets: list[Tablet], bill: Bill, rng: Random) -> None:
    """One says this, another that, of the same thing; often both had heard of all that was there before."""
    one, other = rng.sample(tablets, 2)
    if rng.random() < 0.5:
        one.sync(other)
        other.sync(one)
    case = rng.choice(CASES[rng.choice(list(CASES))])
    names = names_of(Bench(one, bill, rng))
    for tablet, said in zip((one, other), rng.sample((case.one, case.other), 2), strict=True):
        write(tablet, said, names)


def names_of(bench: Bench) -> dict[str, str]:
    """Names in the tables -> names of this world; a place that this bill lacks is one that nobody knows."""
    part, rng = bench.part(), bench.rng
    names = {"{part}": part, "{other}": bench.part(), "{finding}": bench.some(bench.new_things("finding.noted"))}
    for key, kinds in PLACES.items():
        found = [place.key for place in bench.places if place.line.kind in kinds] or ["77.7"]
        names |= {key: rng.choice(found), key[0] + "1": rng.choice(found)}
    return names


def write(tablet: Tablet, said: Said, names: dict[str, str]) -> None:
    """Somebody with all rights says it."""
    typ, about, body = said
    if KINDS[typ].shop:
        tablet.write("AA", typ, (about,), dict(body), journal=SHOP)
        return
    ent = tuple("@" + names[each[1:]] if each.startswith("@") else names.get(each, each) for each in about.split(" "))
    tablet.write("AA", typ, tuple(dict.fromkeys(ent)), {name: named(name, each, names) for name, each in body.items()})


def named(field: str, value: Any, names: dict[str, str]) -> Any:
    """A field of a body; where a part came out or goes, the place of this world."""
    return names[value] if field in ("out_of", "meant_for") else value
