"""The programs the proof is asked of: the naive twin and the app."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple, Protocol

from teardown_app.domain.bill.bill import Bill
from teardown_app.domain.job.job import Job
from teardown_app.domain.job.replay import replay
from teardown_app.domain.ledger.record import Record
from teardown_app.domain.parts.bound import bound_in, register_of
from teardown_app.domain.points.live import Live, all_points
from teardown_app.domain.points.point import Point
from teardown_app.domain.shop.shop import Shop
from tests.open_points.naive import Witness

Bills = Callable[[str], Bill | None]
Records = Iterable[Record]
Others = Mapping[str, Records]


class Standing(NamedTuple):
    """One point as any program says it."""

    key: str
    kind: str
    gate: str
    state: str


class Arrivals(Protocol):
    """A program that takes records in one by one."""

    def take(self, record: Record) -> None:
        """One record comes in."""

    def points(self) -> list[Standing]:
        """All points of what came in so far."""


class Twin:
    """The naive one: everything anew each time."""

    def __call__(
        self, shop: Records, number: str, job: Records, bills: Bills, others: Others | None = None
    ) -> list[Standing]:
        """All points, by key."""
        found = Witness(shop, number, job, bills, others).points()
        return [Standing(each.key, each.kind, each.gate, each.state) for each in found]

    def is_closed(self, shop: Records, number: str, job: Records, bills: Bills) -> bool:
        """Whether the job is closed."""
        return Witness(shop, number, job, bills).is_closed()

    def arriving(self, number: str, bills: Bills) -> Arrivals:
        """Takes records one by one, and works everything out from those it has."""
        return _Kept(self, number, bills)


class _Kept:
    def __init__(self, twin: Twin, number: str, bills: Bills) -> None:
        self.twin, self.number, self.bills = twin, number, bills
        self.records: list[Record] = []

    def take(self, record: Record) -> None:
        self.records.append(record)

    def points(self) -> list[Standing]:
        shop = [each for each in self.records if each.job != self.number]
        job = [each for each in self.records if each.job == self.number]
        return self.twin(shop, self.number, job, self.bills)


class App:
    """The real one: state folded from records, points kept current."""

    def __call__(
        self, shop: Records, number: str, job: Records, bills: Bills, others: Others | None = None
    ) -> list[Standing]:
        """All points, by key; of other jobs their bindings of labels."""
        jobs = [replay(shop, name, records, bills) for name, records in (others or {}).items()]
        register = register_of(one for each in jobs for one in bound_in(each))
        return sorted(_standing(each) for each in all_points(replay(shop, number, job, bills), register))

    def is_closed(self, shop: Records, number: str, job: Records, bills: Bills) -> bool:
        """Whether the job is closed."""
        return Live(replay(shop, number, job, bills)).closed

    def arriving(self, number: str, bills: Bills) -> Arrivals:
        """Takes records one by one and keeps its points current."""
        return _Live(number, bills)


class _Live:
    def __init__(self, number: str, bills: Bills) -> None:
        self.shop = Shop()
        self.job = Job(number, self.shop, bills)
        self.live = Live(self.job)

    def take(self, record: Record) -> None:
        if record.job == self.job.number:
            self.live.update(record, self.job.take(record))
            return
        self.shop.take(record)
        if self.job.shop_took(record):
            self.live = Live(self.job)

    def points(self) -> list[Standing]:
        return sorted(_standing(each) for each in self.live.points())


def _standing(point: Point) -> Standing:
    return Standing(point.key, point.kind, point.gate, point.state)
