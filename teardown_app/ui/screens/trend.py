"""How the readings of one place moved over the jobs of this model: one series after the other, as a plot."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.bill import Check
from teardown_app.domain.job.job import Job
from teardown_app.domain.measure.digits import told_apart
from teardown_app.domain.measure.judging import band, limit_of
from teardown_app.domain.parts.naming import named
from teardown_app.domain.places.trend import Past, readings_at
from teardown_app.figures.trend import trend_figure
from teardown_app.ui.screen import Screen
from teardown_app.ui.slow import Report
from teardown_app.ui.view import ACCEPT, REJECT, UNSURE, Card, Fact, Step, View
from teardown_app.ui.words import counted

MARKS = {"accept": ACCEPT, "reject": REJECT, "inconclusive": UNSURE}
LAST = 8
"""So many readings are listed beside the plot, the newest first."""


class Trend(Screen):
    """One check at one spot of a place; the step leads to the next one."""

    name = "trend"

    def view(self) -> View:
        job, key = self.desk.job, str(self.state.get("at", ""))
        series = self._series()
        if not series or key not in job.positions:
            return View("Trend", card=Card("Nothing", "No number is read at this place"), main=self._home())
        check, spot = series[int(self.state.get("n", 0)) % len(series)]
        past = self._past(check, spot)
        unit = check.limit.unit if check.limit else ""
        limit = limit_of(check)
        ends = (_end(limit.min), _end(limit.max)) if limit else (None, None)
        says = f"{check.says or check.name}{f' at {spot}' if spot else ''}"
        facts = [
            Fact(f"{one.day} {one.serial}", f"{_told(one.value, ends)} {unit} {one.when}", MARKS.get(one.verdict, ""))
            for one in past[::-1][:LAST]
        ]
        word = counted(len(past), "reading") + ("" if "past" in self.state else " in this job")
        earlier = None if "past" in self.state else Step("Add the earlier jobs", "earlier")
        following = Step(f"Next check ({len(series)})", "following") if len(series) > 1 else None
        steps = [one for one in (earlier, following) if one]
        figure = trend_figure(past, limits=ends, unit=unit)
        card = Card(key[:14], says, "", word, tuple(facts))
        empty = "Nothing was read here yet."
        title = f"Trend · {named(job, key)}"
        main = steps[0] if steps else self._home()
        return View(title, (), empty, figure=figure, card=card, main=main, quiet=tuple(steps[1:]))

    def _home(self) -> Step:
        return Step("To the open points", "go", ("points",))

    def _series(self) -> list[tuple[Check, str]]:
        """Checks of the place with a number, at each of their spots."""
        job, key = self.desk.job, str(self.state.get("at", ""))
        position = job.positions.get(key)
        checks = [job.bill.checks[name] for name in position.line.checks if name in job.bill.checks] if position else []
        numeric = [one for one in checks if one.limit is not None and band(one.limit) is not None]
        return [(check, spot) for check in numeric for spot in check.spots or ("",)]

    def _past(self, check: Check, spot: str) -> list[Past]:
        line = self.desk.job.positions[str(self.state["at"])].line.position
        here = readings_at(self.desk.job, line, check.name, spot)
        told: Sequence[Any] = self.state.get("past", {}).get(f"{check.name}/{spot}", ())
        known = [Past(*one) for one in told]
        return sorted({*known, *here}, key=lambda one: (one.day, one.job))

    def following(self) -> None:
        """The next check."""
        self.state["n"] = int(self.state.get("n", 0)) + 1

    def earlier(self) -> None:
        """Reads the other jobs of this model off the screen's thread."""
        job, workshop = self.desk.job, self.desk.workshop
        line = job.positions[str(self.state["at"])].line.position
        rows = [str(row["job"]) for row in workshop.lists.jobs() if row["model"] == job.bill.model]
        others = [number for number in rows if number != job.number]
        series = self._series()

        def read(report: Report) -> dict[str, list[Past]]:
            found: dict[str, list[Past]] = {}
            for n, number in enumerate(others):
                report(f"job {n + 1} of {len(others)}")
                other: Job = workshop.read_apart(number)
                for check, spot in series:
                    found.setdefault(f"{check.name}/{spot}", []).extend(readings_at(other, line, check.name, spot))
            return found

        self.desk.slow.start("Reading earlier jobs:", read, self._keep)

    def _keep(self, found: dict[str, list[Past]]) -> None:
        self.state["past"] = {name: [list(one) for one in past] for name, past in found.items()}


def _told(value: float, ends: Sequence[float | None]) -> str:
    """In digits enough to tell it from the limits."""
    return told_apart(Decimal(repr(value)), [None if one is None else Decimal(repr(one)) for one in ends])


def _end(end: Decimal | None) -> float | None:
    return None if end is None else float(end)
