"""Small random bills: every kind of line, joints, matched sets, interchange, alternates, order, routes, checks."""

from __future__ import annotations

from decimal import Decimal
from random import Random
from typing import Any

from attrs import evolve, fields

from teardown_app.domain.bill.bill import Bill, Check, Component, Joint, Line, Operation, Route
from teardown_app.domain.bill.limit import Limit

NUMBERS = ("P1", "P2", "P3", "P4", "P5")


def _limit(unit: str, *, most: str = "", least: str = "") -> Limit:
    """A limit in numbers: at most, at least, or both."""
    said = [f"{word} {number} {unit}" for word, number in (("max", most), ("min", least)) if number]
    top, bottom = (Decimal(each) if each else None for each in (most, least))
    return Limit(" ".join(said), max=top, min=bottom, unit=unit)


CHECKS = {
    each.name: each
    for each in (
        Check("runout", type="runout", limit=_limit("um", most="0.4"), when=("finished",), outlasts=("rinse",)),
        Check("look", type="visual", again_h=Decimal(4)),
        Check("bore", type="diameter", limit=_limit("mm", most="20.02", least="19.98"), when=("finished", "new"),
              spots=("1", "2"), instrument="bore gauge"),
        Check("flat", limit=_limit("mm", most="0.02"), when=("as found", "finished", "new"), again_h=Decimal(2)),
        Check("seat", type="leak", limit=_limit("N", least="5"), when=("as found", "fitted"), again_h=Decimal("0.5")),
        Check("earth", type="bonding", when=("finished", "new")),
        Check("guard", type="interlock", when=("power on",)),
        Check("tight", type="leak", limit=_limit("um", most="2", least="0.5"), when=("water on", "ship"),
              again_h=Decimal(24), instrument="gauge"),
        Check("match", limit=Limit("compare as found", compare="as found"), when=("finished", "ship")),
        Check("incoming", type="visual", when=("arrival", "new")),
    )
}  # fmt: skip
TIMED: dict[str, Any] = {"time": "10 min"} if any(each.name == "time" for each in fields(Operation)) else {}
NEAR: dict[str, Any] = {"tolerance_percent": Decimal(4)}
"""Words of rules 2, where a bill can hold them."""

DEGREASE = Operation("degrease", wait_h=Decimal(4), record=("bath",), **TIMED)
ROUTES = {
    each.name: each
    for each in (
        Route("clean", "as received", (DEGREASE, Operation("polish", spoils=("runout",)))),
        Route("wipe", "as received", (Operation("rinse"),)),
        Route("rinse-new", "new", (Operation("rinse"),)),
        Route("again", "repaired", (Operation("polish", spoils=("bore", "look")),)),
    )
}
COMPONENTS = {
    "P1": Component("P1", alternates=("P6",), superseded_by="P7"),
    "P6": Component("P6", superseded_by="P8"),
    "P2": Component("P2", superseded_by="P3", shelf_life_days=365),
}


def random_bill(rng: Random) -> Bill:
    """A bill of a few lines; every rule that a bill must keep is kept."""
    lines: list[Line] = []
    _grow(rng, lines, "", depth=0)
    lines = [evolve(line, fit_after=_after(rng, lines, n)) for n, line in enumerate(lines)]
    lines = [evolve(line, joint=_joint(rng, lines, line)) for line in lines]
    return Bill("TRIAL", "A", "AA", tuple(lines), COMPONENTS, CHECKS, ROUTES)


def _grow(rng: Random, lines: list[Line], parent: str, depth: int) -> None:
    for n in range(1, rng.randint(3, 4 if depth else 6)):
        kinds, weights = ("assembly", "part", "hardware", "consumable", "temporary"), (3, 5, 2, 2, 1)
        if depth == 2 or len(lines) > 8:
            kinds, weights = kinds[1:], weights[1:]
        position = f"{parent}.{n}0" if parent else f"{n}0"
        line = _line(rng, position, parent, rng.choices(kinds, weights)[0], len(lines) + 2)
        lines.append(line)
        if line.kind == "assembly" and rng.random() < 0.85:
            _grow(rng, lines, position, depth + 1)


def _line(rng: Random, position: str, parent: str, kind: str, row: int) -> Line:
    line = Line(position, parent, row, rng.choice(NUMBERS), kind=kind, quantity=Decimal(rng.choice((1, 1, 1, 2))))
    if rng.random() < 0.12:
        line = evolve(line, option=rng.choice(("heater", "heater; drain")))
    if kind == "hardware":
        return evolve(line, quantity=Decimal(rng.randint(1, 4)), checks=_some(rng, CHECKS, 0.1))
    if kind == "consumable":
        unit, renew = rng.choice(("EA", "EA", "M")), rng.choice(("", "always", "if opened", "on condition"))
        return evolve(line, unit=unit, renew=renew, checks=_some(rng, CHECKS, 0.1), write_down=_written(rng))
    if kind == "temporary":
        return evolve(line, ships=rng.choice(("in", "out", "")))
    more: dict[str, Any] = {
        "matched_set": rng.choice(("", "pair")),
        "interchange_group": rng.choice(("", "", "", "valve")),
    }
    more |= {"routes": _some(rng, ROUTES, 0.35), "checks": _some(rng, CHECKS, 0.25), "write_down": _written(rng)}
    return evolve(line, **more)


def _written(rng: Random) -> tuple[str, ...]:
    return rng.choice(((), (), (), (), ("serial",), ("lot",)))


def _some(rng: Random, names: object, share: float) -> tuple[str, ...]:
    return tuple(name for name in sorted(names) if rng.random() < share)  # type: ignore[call-overload]


def _after(rng: Random, lines: list[Line], n: int) -> tuple[str, ...]:
    """Earlier lines only, so that no circle can come about, and nothing above or beneath."""
    line = lines[n]
    earlier = [each.position for each in lines[:n] if not _is_kin(each.position, line.position)]
    if not earlier or rng.random() < 0.6:
        return ()
    return tuple(sorted(set(rng.choices(earlier, k=rng.randint(1, 2)))))


def _is_kin(one: str, other: str) -> bool:
    return f"{one}.".startswith(f"{other}.") or f"{other}.".startswith(f"{one}.")


def _joint(rng: Random, lines: list[Line], line: Line) -> Joint | None:
    if line.kind != "hardware" or rng.random() < 0.3:
        return None
    near = [each.position for each in lines if each.parent == line.parent and each.kind in ("part", "assembly")]
    passes = rng.choice(((), (Decimal(30), Decimal(100)), (Decimal("50"), Decimal("100"))))
    torque = rng.choice((Decimal(6), Decimal(6), Decimal(6), None))
    hours = rng.choice((None, None, Decimal(1), Decimal("3.5")))
    holds = tuple(near[: rng.randint(0, 2)])
    hot = rng.random() < 0.3
    near_enough = NEAR if rng.random() < 0.3 else {}
    return Joint(
        "M6", torque_nm=torque, passes=passes, retighten_h=hours, retighten_heat=hot, holds=holds, **near_enough
    )
