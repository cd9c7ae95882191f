"""What adds up answers once: of pieces of hardware, parts, lines and findings that were taken back at one spot each
takes a record of its own that says it anew, so that one *added 2* does not stand for two that were taken back."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from teardown_app.domain.job.job import Job
from teardown_app.domain.ledger.acts import Row, rows
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.ledger.remembered import remembered

ADDED, OUT, LINE, FINDING = "added", "screws taken out", "line.added", "finding.noted"
BRINGS_IN = ("part.taken_off", "part.brought_in")
SAID_ALIKE = ("part_number", "origin", "owner", "set_mark")
"""What a record that brings a part in anew says as the one that was taken back had said it."""


class Spot(NamedTuple):
    """Where something that adds up was recorded: what it is, at what, and what tells it from others there."""

    what: str
    """*added*, *screws taken out*, or the kind of record."""
    at: str
    """The place or part; of a line its parent; of a part that came out of no place its label."""
    which: str = ""
    """The word of a finding; the part number of a line; of a part whether it came out of a place."""


def pieces(record: Record, what: str) -> int:
    """How many pieces of hardware a record says were added, or taken out of their places; of all else it is one."""
    if record.typ != "hardware.moved":
        return int(what not in (ADDED, OUT))
    said = int(record.body.get(ADDED, 0)) if what == ADDED else -int(record.body.get("put_in", 0))
    return max(said, 0)


def spots_of(record: Record, subject: str) -> list[Spot]:
    """The spots of what a record says of a thing; none where it does not add up."""
    body = record.body
    if record.typ in BRINGS_IN:
        same = "out_of" if body.get("out_of") else "number"
        return [Spot(record.typ, str(body.get(same, "")), same)]
    if record.typ == LINE:
        return [_of_line(record)]
    if record.typ == FINDING:
        return [Spot(FINDING, subject, body["word"])]
    return [Spot(what, subject) for what in (ADDED, OUT) if pieces(record, what)]


def _of_line(record: Record) -> Spot:
    return Spot(LINE, record.body["parent"], record.body["part_number"])


def answered_at(job: Job, spot: Spot) -> frozenset[str]:
    """Names of the records taken back at a spot that are recorded again; worked out once between two records."""
    key = (answered_at, spot)
    if key not in job.memory:
        job.memory[key] = frozenset(_answered(job, spot)) if spot.at or spot.what == LINE else frozenset()
    return job.memory[key]  # type: ignore[no-any-return]


def _answered(job: Job, spot: Spot) -> Iterator[str]:
    """They are taken by name, and each takes the first by name that no other one took; hardware as many pieces as it
    said, or none."""
    here = sorted({one.h: one for one in _written_at(job, spot)}.values(), key=lambda one: (one.ref, one.h))
    left = {one.h: pieces(one, spot.what) for one in here if not job.effect(one)}
    gone = [one for one in here if job.takings_back(one) and spot in spots_of(one, spot.at)]
    for target in gone:
        wanted = pieces(target, spot.what)
        those = [one.h for one in here if left.get(one.h) and _takes(job, spot, one, target)]
        if sum(left[one] for one in those) >= wanted:
            _take(left, those, wanted)
            yield target.h


def _takes(job: Job, spot: Spot, again: Record, target: Record) -> bool:
    if spot.what in (ADDED, OUT):
        return _is_later(job, again, target)
    return says_anew(job, again, target) and _alike(again, target)


def _take(left: dict[str, int], those: Iterable[str], wanted: int) -> None:
    for one in those:
        taken = min(left[one], wanted)
        left[one] -= taken
        wanted -= taken


def says_anew(job: Job, again: Record, target: Record) -> bool:
    """Has a record effect, is it the same act as one that was taken back, and had its author seen that?"""
    return _is_later(job, again, target) and _same_act(again, target)


def _is_later(job: Job, again: Record, target: Record) -> bool:
    knew = any(job.knowing.knew(again, back) for back in job.takings_back(target))
    return knew and not job.effect(again)


def _same_act(again: Record, target: Record) -> bool:
    wanted = [row for row in rows(target) if row.asks_by(target)]
    found: list[Row] = rows(again)
    return all(row in found for row in wanted) if wanted else again.typ == target.typ


def _alike(again: Record, target: Record) -> bool:
    if target.typ not in BRINGS_IN:
        return True
    return all(again.body.get(fact) == target.body[fact] for fact in SAID_ALIKE if fact in target.body)


def _written_at(job: Job, spot: Spot) -> Iterable[Record]:
    """Records of a spot, taken back or not, that are good."""
    if spot.what == LINE:
        return _lines(job, "").get(spot, [])
    if spot.what in BRINGS_IN:
        place, number = (position_thing(spot.at), "came_out"), (f"number:{spot.at}", "bound")
        entries = job.ever(*(place if spot.which == "out_of" else number))
        return [entry.record for entry in entries if entry.record.typ == spot.what]
    if spot.what == FINDING:
        return [one for one in job.about(spot.at) if one.typ == FINDING and one.body["word"] == spot.which]
    return [one for one in job.about(spot.at) if pieces(one, spot.what)]


@remembered
def _lines(job: Job, _: str) -> dict[Spot, list[Record]]:
    """Lines that were ever added, by their spot."""
    found: dict[Spot, list[Record]] = {}
    for one in filter(job.good, job.of_kind(LINE)):
        found.setdefault(_of_line(one), []).append(one)
    return found
