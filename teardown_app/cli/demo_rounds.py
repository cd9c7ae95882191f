"""Rounds of the demo that go over the whole tool: apart, through the routes, readings, together again."""

from __future__ import annotations

from decimal import Decimal

from teardown_app.cli.demo_bench import DemoBench
from teardown_app.domain.bill.bill import Check, Position
from teardown_app.domain.ledger.kinds.reassembly import Count
from teardown_app.domain.measure.judging import limit_of
from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.routing import remaining, route_of, waits_open
from teardown_app.domain.places.checking import part_status, place_checks, place_status, release_checks
from teardown_app.domain.places.joint import AFTER_HEAT, AGAIN, has_torque, hours_to_rest, passes_left
from teardown_app.domain.places.place import covered_places
from teardown_app.domain.places.scope import scope_of

UNITS = ("40.10", "40.20")
"""Assemblies that come off as one before they are taken apart."""

SHORT = {"10.90": 7}
"""Hardware of which less was found at first."""


def take_apart(bench: DemoBench, by: str) -> None:
    """Every part off, in the order in which it went in, reversed."""
    bench.chapter("Teardown")
    order = [bench.job.positions[key] for key in reversed(order_of_fitting(bench))]
    for position in order:
        kind, key = position.line.kind, position.key
        if scope_of(bench.job, key).counts != "in":
            continue
        if kind == "part" or key in UNITS:
            _off(bench, by, position)
        elif kind == "hardware":
            found = SHORT.get(key, position.count or 0)
            bench.do(by, "hardware", "count", "JOB", key, "--found", str(found), quiet=key not in SHORT)
    extra = bench.do(
        by, "part", "off", "JOB", "--extra", "--number", bench.numbers.pop(0), "--place", "QUARANTINE",
        "--note", "yellow bracket, not on the bill, screwed to the base",
    )  # fmt: skip
    bench.extra = extra.data["number"]


def _off(bench: DemoBench, by: str, position: Position) -> None:
    wanted = [(f"--{what}", f"{what[0].upper()}-{position.key}") for what in position.line.write_down]
    small = position.line.description.startswith(("CLIP", "NUT", "TEE"))
    label = ["--place", "TRAY 2/" + position.key.replace("/", "-")] if small else ["--number", bench.numbers.pop(0)]
    words = [word for pair in wanted for word in pair]
    words += [] if small else ["--place", "RACK 1"]
    words += ["--condition", "good"]
    bench.do(by, "part", "off", "JOB", position.key, *label, *words, quiet=bench.seen_enough())


def through_the_routes(bench: DemoBench, by: str) -> None:
    """All parts through their operations, those at the same one together."""
    while True:
        groups: dict[tuple[str, str], list[str]] = {}
        for part in bench.going_back():
            left, route = remaining(bench.job, part), route_of(bench.job, part)
            if left and route:
                groups.setdefault((route.name, left[0].id), []).append(part)
        if not groups:
            return
        waits = [left for part in bench.going_back() for _, left in waits_open(bench.job, part, bench.workshop.now())]
        if waits:
            bench.wait(max(waits) + 0.1)
        for (named, operation), parts in groups.items():
            _operate(bench, by, named, operation, parts)


def _operate(bench: DemoBench, by: str, route: str, operation: str, parts: list[str]) -> None:
    step = next(one for one in bench.job.bill.routes[route].operations if one.id == operation)
    if step.time:
        names = [bench.called(part) for part in parts]
        bench.do(by, "part", "start", "JOB", *names, "--operation", operation, quiet=bench.seen_enough())
    values = [word for name in step.record for word in ("--value", f"{name}=as the card says")]
    names = [bench.called(part) for part in parts]
    bench.do(by, "part", "done", "JOB", *names, "--operation", operation, *values, quiet=bench.seen_enough())


def read_finished_checks(bench: DemoBench, by: str) -> None:
    """Every reading that a release needs."""
    waits = [left for part in bench.going_back() for _, left in waits_open(bench.job, part, bench.workshop.now())]
    if waits:
        bench.wait(max(waits) + 0.1)
    for part in bench.going_back():
        for needed in release_checks(bench.job, part):
            if part_status(bench.job, part, needed).word != "accept":
                _read(bench, by, bench.called(part), needed.check, needed.when, needed.spot)


def read_due_checks(bench: DemoBench, by: str) -> None:
    """Every reading at a place, of fitted parts and for the gates."""
    for position in list(bench.job.positions.values()):
        if scope_of(bench.job, position.key).counts != "in":
            continue
        for needed in place_checks(bench.job, position):
            if place_status(bench.job, position, needed).word != "accept":
                _read(bench, by, position.key, needed.check, needed.when, needed.spot)


def _read(bench: DemoBench, by: str, name: str, check: Check, when: str, spot: str) -> None:
    words = ["check", "read", "JOB", name, check.name, "--when", when]
    words += ["--spot", spot] if spot else []
    text = good_value(check)
    if check.limit and check.limit.compare and check.limit.max is not None:
        words += ["--value", f"1 {check.limit.unit}", "--against", f"1 {check.limit.unit}"]
    else:
        words += ["--value", text] * check.readings if text else ["--answer", "good"]
    bench.do(by, *words, quiet=bench.seen_enough())


def good_value(check: Check) -> str:
    """A value well within the check's limit; empty where a person judges."""
    limit = limit_of(check)
    if limit is None:
        return ""
    if limit.count is not None:
        return str(limit.count)
    if limit.max is not None and limit.min is not None:
        middle = (limit.max + limit.min) / 2
    else:
        middle = limit.max * Decimal("0.6") if limit.max is not None else (limit.min or Decimal(0)) * Decimal("1.5")
    return f"{middle.normalize():f} {limit.unit}".strip()


def fill_places(bench: DemoBench, by: str) -> None:
    """Everything in that can go in, again and again until nothing more can."""
    order = [bench.job.positions[key] for key in order_of_fitting(bench)]
    while True:
        done = [_fill(bench, by, position) for position in order]
        if not any(done):
            return


def _fill(bench: DemoBench, by: str, position: Position) -> bool:
    """True when something was recorded at this place."""
    job, key, kind = bench.job, position.key, position.line.kind
    if scope_of(job, key).counts != "in":
        return False
    if (kind == "part" or key in UNITS) and not holder(job, key):
        return bench.try_to(by, "part", "fit", "JOB", key, quiet=bench.seen_enough())
    if kind == "consumable" and not job.heads("@" + key, "renewal"):
        lot = ["--lot", f"LOT-{key}"] if "lot" in position.line.write_down else []
        return bench.try_to(by, "consumable", "renew", "JOB", key, *lot, "--expiry", "2028-12-31")
    if kind == "hardware":
        return _screw(bench, by, position)
    return False


def _screw(bench: DemoBench, by: str, position: Position) -> bool:
    key = position.key
    wanted = (position.count or 0) - bench.job.total("@" + key, "put_in")
    found = bench.job.value("@" + key, "found", Count(0, ())).found
    able = min(wanted, found - bench.job.total("@" + key, "put_in"))
    if able > 0:
        return bench.try_to(by, "hardware", "move", "JOB", key, "--put-in", str(able))
    if has_torque(position) and not wanted and passes_left(bench.job, position):
        if passes_left(bench.job, position)[0] in (AGAIN, AFTER_HEAT):
            return False  # after the rest, and after the first heat, all joints together
        return bench.try_to(by, "joint", "torque", "JOB", key, quiet=bench.seen_enough())
    return False


def tighten_again(bench: DemoBench, by: str) -> None:
    """Joints that the bill wants tightened once more, after they have rested."""
    due = _joints_due(bench, AGAIN)
    if due:
        bench.wait(max(hours_to_rest(bench.job, one, bench.workshop.now()) for one in due) + 0.1)
        bench.do(by, "joint", "torque", "JOB", *(one.key for one in due))


def tighten_after_heat(bench: DemoBench, by: str) -> None:
    """Joints that the bill wants tightened once more when the tool has been hot."""
    due = _joints_due(bench, AFTER_HEAT)
    if due:
        bench.do(by, "joint", "torque", "JOB", *(one.key for one in due))


def _joints_due(bench: DemoBench, pass_: str) -> list[Position]:
    return [one for one in bench.job.positions.values() if passes_left(bench.job, one)[:1] == [pass_]]


def order_of_fitting(bench: DemoBench) -> list[str]:
    """Keys of all places, each after what it closes over and after what is beneath it."""
    job = bench.job
    done: dict[str, None] = {}

    def visit(key: str) -> None:
        if key in done:
            return
        done[key] = None
        for before in covered_places(job, job.positions[key]):
            visit(before)
        done[key] = done.pop(key)

    for key in job.positions:
        visit(key)
    return list(done)
