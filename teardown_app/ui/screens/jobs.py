"""Jobs: how far each is, what holds it, when it is due, and what others did since I was last here."""

from __future__ import annotations

from typing import Any

from teardown_app.domain.life import in_order, sentence
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, HOLD, TO_DO, Card, Fact, Row, Step, View

NEWS = 12


class Jobs(Screen):
    """All jobs; the one that was touched is in hand."""

    name = "jobs"
    of_job = False

    def view(self) -> View:
        rows = sorted(self._listed(), key=lambda row: (row["closed"], row["due"] or "9999", row["job"]))
        at = str(self.state.get("at") or self.desk.job_number)
        empty = "There is no job yet. Open one from a bill in the office."
        card, main = self._card(at) if any(row["job"] == at for row in rows) else (_WELCOME, None)
        return View(
            f"{sum(not row['closed'] for row in rows)} open jobs",
            tuple(_row(row, at) for row in rows),
            empty,
            card=card,
            main=main or self._without_a_job(bool(rows)),
            quiet=(Step("What is new", "news", (at,)), Step("Sign off", "sign_off"))
            if main
            else (Step("Sign off", "sign_off"),),
            show=at,
        )

    def _without_a_job(self, listed: bool) -> Step | None:
        """What can be done while no job is in hand."""
        if self.desk.jobs_left:
            return Step("Go on without the rest", "stop_listing")
        return None if listed else Step("Open a job in the office", "go", ("office",))

    def _listed(self) -> list[dict[str, Any]]:
        """The jobs; as far as they are known, while the list is made anew or that was stopped."""
        desk, lists = self.desk, self.desk.workshop.lists
        if desk.jobs_left:
            return lists.jobs_so_far()
        if desk.listing_stopped:
            lists.catch_up_on([desk.job_number] if desk.job_number else [])
            return lists.jobs_so_far()
        return lists.jobs()

    def _card(self, number: str) -> tuple[Card, Step]:
        opened = self.desk.workshop.job(number)
        job = opened.job
        points = opened.live.open_points()
        news = self.desk.news.of(job, self.desk.session.current)
        facts = [
            Fact("job", number),
            Fact("tool", f"{job.bill.model}, serial {job.said('serial')}"),
            Fact("due", job.said("due") or "no day given"),
            Fact("open points", str(len(points)), ACCEPT if not points else ""),
        ]
        if self.state.get("news"):
            facts += [Fact(one.act, sentence(job, one)) for one in news[-NEWS:]]
        else:
            facts.append(Fact("new for you", f"{len(news)} records of others" if news else "nothing"))
        word = "closed" if job.closed else "complete: nothing is open" if not points else ""
        card = Card(
            job.said("order")[:14], job.said("name") or job.bill.model, ACCEPT if not points else "", word, tuple(facts)
        )
        return card, Step(f"Work on {job.said('name') or number}", "work", (number,))

    def choose(self, key: str) -> None:
        """Takes a job in hand."""
        self.state["at"] = self.desk.job_number = key
        self.state.pop("news", None)

    def work(self, number: str) -> None:
        """Goes to the bench where the job stands."""
        self.desk.job_number = number
        job = self.desk.job
        self.desk.news.seen(job, self.desk.session.current)
        started = any(record.typ == "part.fitted" for record in in_order(job)[-40:])
        self.desk.go("points" if job.closed else "assembly" if started else "teardown")

    def news(self, number: str) -> None:
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
    mark = ACCEPT if row["closed"] else HOLD if row["holds"] else TO_DO if number == at else ""
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
