"""Open points: what still stands between the job and a tool with nothing missing, and what clears each."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.parts.naming import named
from teardown_app.domain.points.point import CONCEDED, OPEN, Point
from teardown_app.domain.signed.signing import closing_stands
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, EMPTY, TO_DO, UNSURE, Card, Fact, Row, Step, View
from teardown_app.workflows.close_job import stops_closing, to_accept


class Points(Screen):
    """All open points, in the order of the gates that they stop."""

    name = "points"

    def view(self) -> View:
        points = self.desk.points()
        standing = [one for one in points if one.state == OPEN]
        at = str(self.state.get("at", ""))
        chosen = next((one for one in points if one.key == at), standing[0] if standing else None)
        rows, gate = [], ""
        for one in points:
            if one.gate != gate:
                gate = one.gate
                count = sum(each.gate == gate and each.state == OPEN for each in points)
                rows.append(Row(f"= {gate}", f"Before: {gate}", trail=f"{count} open", act="nothing"))
            mark = UNSURE if one.state == CONCEDED else TO_DO if chosen and one.key == chosen.key else EMPTY
            sub = one.clears if one.state == OPEN else "conceded"
            rows.append(Row(one.key, one.wrong, sub, mark, 1, chosen=bool(chosen and one.key == chosen.key)))
        closed = self.desk.opened.live.closed
        main, quiet = self._steps(chosen, points, closing_stands(self.desk.job))
        return View(
            f"{len(standing)} open points",
            tuple(rows),
            "Nothing is open: no place, no part, no screw, no reading.",
            card=self._card(chosen, len(standing), closed),
            main=main,
            quiet=quiet,
            show=at,
        )

    def _card(self, point: Point | None, standing: int, closed: bool) -> Card:
        if closed:
            return Card("Closed", "The job is closed", ACCEPT, "Nothing is missing.")
        if point is None:
            return Card("Complete", "Nothing is open", ACCEPT, "The job can be signed and closed.")
        where = named(self.desk.job, point.position) if point.position else point.tag
        facts = [Fact("do", point.clears, TO_DO), Fact("where", where or "the job"), Fact("stops", point.gate)]
        if point.never:
            facts.append(Fact("concession", "this is never conceded"))
        return Card(f"{standing} open", point.wrong, EMPTY, point.kind, tuple(facts))

    def _steps(
        self, point: Point | None, points: Sequence[Point], closed: bool
    ) -> tuple[Step | None, tuple[Step, ...]]:
        if closed:
            return Step("Open the job again", "form", ("reopen",)), ()
        close = Step("Close and sign", "form", ("close",))
        if point is None:
            return close, ()
        concede = Step(
            "Have it conceded",
            "concede",
            (point.key,),
            ready=not point.never and point.state == OPEN,
            why_not="This is never conceded." if point.never else "It is conceded already.",
        )
        if all(one in to_accept(points) for one in stops_closing(points)):
            return close, (concede,)
        return Step(f"Go to {point.position or point.tag or 'it'}", "there", (point.key,)), (concede,)

    def choose(self, key: str) -> None:
        """A point is looked at."""
        self.state["at"] = key

    def nothing(self, key: str) -> None:
        """A row that only tells."""

    def there(self, key: str) -> None:
        """Goes where the point is cleared."""
        point = next(one for one in self.desk.points() if one.key == key)
        kind = self.desk.job.positions[point.position].line.kind if point.position in self.desk.job.positions else ""
        if point.part and "missing" not in point.kind:
            self.desk.go("part", part=point.part, back=True)
        elif point.position:
            counting = kind == "hardware" and "counted" in point.kind
            self.desk.go("teardown" if counting else "assembly", at=point.position)
        else:
            self.desk.say(point.clears)

    def concede(self, key: str) -> None:
        """Opens the form for a concession."""
        self.desk.open("concede", point=key)

    def form(self, name: str) -> None:
        """Closes or reopens the job."""
        self.desk.open(name)
