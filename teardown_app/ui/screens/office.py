"""The office: jobs from bills, people and rights, places, labels, scope, approvals, and this tablet."""

from __future__ import annotations

from pathlib import Path

from teardown_app.domain.life import all_parts
from teardown_app.domain.parts import findings_of, waiting_findings
from teardown_app.domain.record import SHOP
from teardown_app.domain.release import word_of
from teardown_app.ui.screen import Screen
from teardown_app.ui.settings import ALLOWED
from teardown_app.ui.view import ACCEPT, EMPTY, TO_DO, UNSURE, Card, Fact, Row, Step, View

TOPICS = {
    "bills": "Open a job from a bill",
    "people": "People and rights",
    "places": "Places",
    "labels": "Labels",
    "scope": "Scope of this job",
    "approvals": "Customer's answers",
    "tablet": "This tablet",
}


class Office(Screen):
    """One list of topics; what belongs to the one in hand hangs beneath it."""

    name = "office"
    of_job = False

    def view(self) -> View:
        topic = str(self.state.get("topic", ""))
        rows: list[Row] = []
        for name, says in TOPICS.items():
            rows.append(Row(f"= {name}", says, "", TO_DO if name == topic else "", chosen=name == topic, act="topic"))
            if name == topic:
                rows += getattr(self, f"_{name}")()
        card, main, quiet = self._hand(topic)
        return View("Office", tuple(rows), card=card, main=main, quiet=quiet, show=f"= {topic}")

    # what hangs beneath each topic

    def _bills(self) -> list[Row]:
        return [Row(str(path), path.name, str(path.parent.name), EMPTY, 1, act="bill") for path in self.desk.bills()]

    def _people(self) -> list[Row]:
        people = self.desk.workshop.shop.people()
        return [
            Row(
                code,
                code,
                "left" if one.get("revoked") else ", ".join(one["rights"]) or "no rights",
                "",
                1,
                act="person",
            )
            for code, one in sorted(people.items())
        ]

    def _places(self) -> list[Row]:
        shop = self.desk.workshop.shop
        rows = [
            Row(str(one["name"]), str(one["name"]), str(one.get("number") or ""), "", 1, act="nothing")
            for one in shop.places()
        ]
        return rows + [
            Row(str(one["number"]), str(one["name"]), str(one["number"]), "", 1, act="nothing")
            for one in shop.carriers()
        ]

    def _labels(self) -> list[Row]:
        queue = self.desk.labels.waiting()
        return [Row(number, number, f"job {job}", TO_DO, 1, act="nothing") for job, number in queue]

    def _scope(self) -> list[Row]:
        if not self.desk.job_number:
            return []
        job = self.desk.job
        return [
            Row(
                key,
                f"{key}  {one.line.description}",
                job.scope(key).word,
                ACCEPT if job.scope(key).counts == "in" else "",
                1,
                act="scope",
            )
            for key, one in job.positions.items()
            if one.line.kind == "assembly"
        ]

    def _approvals(self) -> list[Row]:
        if not self.desk.job_number:
            return []
        job, rows = self.desk.job, []
        for part in all_parts(job):
            waiting = waiting_findings(job, part)
            for one in findings_of(job, part):
                mark = UNSURE if one.value in waiting else ACCEPT
                rows.append(
                    Row(str(one.value), word_of(job, one.value), self.desk.look.name(part), mark, 1, act="answer")
                )
        return rows

    def _tablet(self) -> list[Row]:
        choice = self.desk.choice
        return [
            Row(f"{name}={word}", word, name, ACCEPT if getattr(choice, name) == word else EMPTY, 1, act="setting")
            for name, words in ALLOWED.items()
            for word in words
        ] + [Row("size", "Size of the glass", "measure a bar with a ruler", "", 1, act="measure")]

    def _hand(self, topic: str) -> tuple[Card, Step | None, tuple[Step, ...]]:
        if topic == "people":
            enrolled = [one for one in self.desk.workshop.home.records(SHOP) if one.typ == "pin.enrolled"]
            facts = tuple(
                Fact(one.wall[:16].replace("T", " "), f"{one.act} chose a PIN on {one.dev}") for one in enrolled[-6:]
            )
            return (
                Card("People", "Touch a person to change rights", facts=facts),
                Step("Register a person", "person", ("",)),
                (),
            )
        if topic == "places":
            return Card("Places", "Benches, shelves, trays"), Step("Register a place", "form", ("place",)), ()
        if topic == "labels":
            queued = Step("Write the queued labels", "form", ("queued labels",))
            card = Card(
                "Labels", f"{len(self.desk.labels.waiting())} labels wait to be printed", word=self.desk.labels.written
            )
            return card, Step("New roll of labels", "form", ("roll",)), (queued,)
        if topic == "bills":
            return Card("Bills", "Touch a bill to open a job from it", word=str(self.desk.bills_folder)), None, ()
        if topic == "scope":
            return Card("Scope", "Touch an assembly: how was it received?"), None, ()
        if topic == "approvals":
            return Card("Answers", "Touch a finding: what does the customer say?"), None, ()
        if topic == "tablet":
            return (
                Card(
                    "Tablet",
                    "How it looks for you",
                    word=f"{self.desk.settings.dots_per_inch or 'system'} dots per inch",
                ),
                None,
                (),
            )
        return Card("Office", "Touch a topic"), None, ()

    # what is touched

    def topic(self, key: str) -> None:
        """Opens a topic, or closes it."""
        name = key.removeprefix("= ")
        self.state["topic"] = "" if self.state.get("topic") == name else name

    def bill(self, key: str) -> None:
        """A job is opened from a bill."""
        self.desk.open("open job", bill=key, name=Path(key).name)

    def person(self, key: str) -> None:
        """A person is registered, or gets other rights."""
        self.desk.open("person", **({"code": key} if key else {}))

    def scope(self, key: str) -> None:
        """Says how an assembly was received."""
        self.desk.open("received", key=key)

    def answer(self, key: str) -> None:
        """The customer's answer to a finding."""
        self.desk.open("answer", finding=key)

    def setting(self, key: str) -> None:
        """Chooses how the tablet looks for the person in front of it."""
        name, _, word = key.partition("=")
        self.desk.settings.choose(self.desk.session.current, name, word)

    def measure(self, key: str) -> None:
        """Sets the true size of the glass."""
        self.desk.open("glass")

    def form(self, name: str) -> None:
        """Opens a form."""
        self.desk.open(name)

    def nothing(self, key: str) -> None:
        """A row that only tells."""
