"""Jobs: how far each is, what holds it, when it is due, and what others did since I was last here."""

from __future__ import annotations

from typing import Any

from teardown_app.domain.parts.life import sentence
from teardown_app.domain.signed.signing import overtaking
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, HOLD, TO_DO, UNSURE, Card, Fact, Row, Step, View
from teardown_app.ui.words import counted

NEWS = 12
FAR = 14
"""So many signs can be read from two metres."""


class Jobs(Screen):
    """All jobs; the one that was touched is in hand."""

    name = "jobs"
    of_job = False

    def view(self) -> View:
        listed = self.desk.listing.jobs(self.desk.job_number)
        rows = sorted(listed, key=lambda row: (row["closed"], row["due"] or "9999", row["job"]))
        at = str(self.state.get("at") or self.desk.job_number)
        empty = "There is no job yet. Open one from a bill in the office."
        quiet: tuple[Step, ...] = (Step("Sign off", "sign_off"),)
        main: Step | None
        if any(row["job"] == at for row in rows):
            card, main, has_news = self._card(at)
            quiet = (Step("What is new", "news"), *quiet) if has_news else quiet
        else:
            card, main = _WELCOME, self._without_a_job(bool(rows))
        title = counted(sum(not row["closed"] for row in rows), "open job")
        return View(title, tuple(_row(row, at) for row in rows), empty, card=card, main=main, quiet=quiet, show=at)

    def _without_a_job(self, listed: bool) -> Step | None:
        """What can be done while no job is in hand."""
        if self.desk.listing.says:
            return Step("Go on without the rest", "stop_listing")
        return None if listed else Step("Open a job in the office", "go", ("office",))

    def _card(self, number: str) -> tuple[Card, Step, bool]:
        """The card, the next step, and whether others recorded something meanwhile."""
        opened = self.desk.workshop.job(number)
        job, points = opened.job, opened.live.open_points()
        news = self.desk.news.of(job, self.desk.session.current)
        name = job.said("name") or number
        facts = [
            Fact("open points", str(len(points)), ACCEPT if not points else ""),
            Fact("due", job.said("due") or "no day given"),
            Fact("order", job.said("order")),
            Fact("job", number),
        ]
        if self.state.get("news"):
            facts += [Fact(one.act, sentence(job, one)) for one in news[-NEWS:]]
        else:
            facts.append(Fact("new for you", f"{counted(len(news), 'record')} of others" if news else "nothing"))
        word = "complete: nothing is open" if not points else ""
        if opened.live.closed:
            word = "closed"
        elif job.said_closed:
            word = (
                f"closed, and overtaken by {counted(len(overtaking(job)), 'record')}: see what is open, then close it"
            )
        tool = f"{job.bill.model}, serial {job.said('serial')}"
        far, head = (name, tool) if len(name) <= FAR else (number[-FAR:], f"{name}: {tool}")
        card = Card(far, head, ACCEPT if not points else "", word, tuple(facts))
        return card, Step(f"Work on {name}", "work", (number,)), bool(news)

    def choose(self, key: str) -> None:
        """Takes a job in hand."""
        self.state["at"] = self.desk.job_number = key
        self.state.pop("news", None)

    def work(self, number: str) -> None:
        """Goes to the bench where the job stands."""
        self.desk.job_number = number
        job = self.desk.job
        self.desk.news.seen(job, self.desk.session.current)
        self.desk.go("points" if job.said_closed else "assembly" if job.speaks("fit") else "teardown")

    def news(self) -> None:
        """Shows what others recorded since this person was last here."""
        self.state["news"] = not self.state.get("news")

    def sign_off(self) -> None:
        """The person goes."""
        self.desk.session.sign_off()
        self.desk.go("sign on")


_WELCOME = Card("Jobs", "Touch a job, or scan its label")


def _row(row: dict[str, Any], at: str) -> Row:
    number = str(row["job"])
    holds = f", {row['holds']} on hold" if row["holds"] else ""
    says = f"{row['model']} · order {row['order']} · {row['open_points']} open{holds}"
    mark = HOLD if row["holds"] else TO_DO if number == at else ""
    if row["closed"]:
        mark = UNSURE if row["open_points"] else ACCEPT
    return Row(
        number,
        str(row["name"] or number),
        says,
        mark,
        trail=str(row["due"] or ""),
        done=int(row["filled"]),
        all=int(row["places"]),
        chosen=number == at,
    )
