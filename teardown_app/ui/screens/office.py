"""The office: jobs from bills, people and rights, places, labels, scope, approvals, and this tablet."""

from __future__ import annotations

from pathlib import Path

from attrs import evolve

from teardown_app.domain.ledger.entry import display_order
from teardown_app.domain.parts.instrument import instrument, instruments, unfit_on
from teardown_app.domain.parts.life import all_parts
from teardown_app.domain.parts.parts import findings_of, waiting_findings, word_of
from teardown_app.domain.places.scope import scope_of
from teardown_app.ui.screen import Screen
from teardown_app.ui.settings import ALLOWED
from teardown_app.ui.view import ACCEPT, EMPTY, UNSURE, Card, Fact, Row, Step, View

TOPICS = {
    "bills": ("Job from a bill", "No bill lies in the folder bills yet. Put its folder or workbook there."),
    "people": ("People and rights", "Nobody is registered yet."),
    "places": ("Places", "No place is registered yet: benches, shelves, trays."),
    "instruments": ("Instruments", "No instrument is registered. Until one is, no check asks for it."),
    "labels": ("Labels", ""),
    "scope": ("Scope", "Choose a job first; then say of its assemblies how they were received."),
    "approvals": ("Customer's answers", "No finding of this job waits for the customer."),
    "tablet": ("This tablet", ""),
}
"""Topic -> its name, and why its list is empty."""
LATELY = 6
KEPT = ("name", "unit", "low", "high", "resolution", "uncertainty", "calibrated", "due")
SETTINGS = {"look": "Colours", "density": "Hands", "units": "Units", "benches": "Benches shown"}


class Office(Screen):
    """Topics as plates; what belongs to the one in hand is listed."""

    name = "office"
    of_job = False

    def view(self) -> View:
        topic = str(self.state.get("topic") or next(iter(TOPICS)))
        says, empty = TOPICS[topic]
        rows = tuple(getattr(self, f"_{topic}")())
        plates = tuple(Step(one, "topic", (name,), chosen=name == topic) for name, (one, _) in TOPICS.items())
        card, main, quiet = self._hand(topic)
        return View(f"Office · {says}", rows, empty, card=evolve(card, steps=plates), main=main, quiet=quiet)

    # what is listed of each topic

    def _bills(self) -> list[Row]:
        bills = self.desk.bills()
        return [Row(str(one), one.name, "folder" if one.is_dir() else "workbook", EMPTY, act="bill") for one in bills]

    def _people(self) -> list[Row]:
        rows = []
        for code, one in sorted(self.desk.workshop.shop.people().items()):
            may = "left" if one.revoked else ", ".join(one.rights) or "no rights"
            rows.append(Row(code, code, may, trail="badge" if one.badge else "", act="person"))
        return rows

    def _places(self) -> list[Row]:
        shop = self.desk.workshop.shop
        known = [*shop.places(), *shop.carriers()]
        return [Row(one.name, one.name, one.number, act="nothing") for one in known]

    def _instruments(self) -> list[Row]:
        """Those in use; what is overdue or was found out is marked."""
        shop, rows = self.desk.workshop.shop, []
        now = self.desk.workshop.now()
        for one in instruments(shop):
            why = unfit_on(shop, one, now)
            says = " ".join(word for word in (one.name, one.number) if word)
            due = f"due {one.due}" if one.due else "no day"
            rows.append(Row(one.number, one.reads, says, UNSURE if why else ACCEPT, trail=due, act="instrument"))
        return rows

    def _scope(self) -> list[Row]:
        if not self.desk.job_number:
            return []
        rows = []
        for key, one in self.desk.job.positions.items():
            if one.line.kind == "assembly":
                scope = scope_of(self.desk.job, key)
                mark = ACCEPT if scope.counts == "in" else ""
                rows.append(Row(key, f"{key}  {one.line.description}", scope.word, mark, act="scope"))
        return rows

    def _approvals(self) -> list[Row]:
        if not self.desk.job_number:
            return []
        job, rows = self.desk.job, []
        for part in all_parts(job):
            waiting = waiting_findings(job, part)
            for one in findings_of(job, part):
                mark, name = UNSURE if one.value in waiting else ACCEPT, self.desk.look.name(part)
                rows.append(Row(str(one.value), word_of(job, one.value), name, mark, act="answer"))
        return rows

    def _tablet(self) -> list[Row]:
        rows = []
        for name, words in ALLOWED.items():
            chosen = getattr(self.desk.choice, name)
            marks = {word: ACCEPT if word == chosen else EMPTY for word in words}
            rows += [Row(f"{name}={word}", word, SETTINGS[name], marks[word], act="setting") for word in words]
        return [*rows, Row("size", "Size of the glass", "measure a bar with a ruler", act="measure")]

    # what can be done there

    def _hand(self, topic: str) -> tuple[Card, Step | None, tuple[Step, ...]]:
        if topic == "people":
            card = Card(head="Touch a person to change rights", facts=self._enrolled())
            return card, Step("Register a person", "person", ("",)), ()
        if topic == "places":
            return Card(head="Benches, shelves, trays"), Step("Register a place", "form", ("place",)), ()
        if topic == "instruments":
            return self._instrument_hand()
        if topic == "tablet":
            dots = self.desk.settings.dots_per_inch
            word = f"the glass was measured: {dots:g} dots per inch" if dots else "the glass was not measured yet"
            return Card(head="How it looks for you", word=word), Step("Make a backup", "form", ("backup",)), ()
        heads = {
            "bills": "Touch a bill to open a job from it",
            "scope": "Touch an assembly: how was it received?",
            "approvals": "Touch a finding: what does the customer say?",
        }
        return Card(head=heads[topic]), None, ()

    def _instrument_hand(self) -> tuple[Card, Step | None, tuple[Step, ...]]:
        """The instrument that was touched, or the way to register one."""
        new = Step("Register an instrument", "form", ("instrument",))
        shop, number = self.desk.workshop.shop, str(self.state.get("instrument", ""))
        known = instrument(shop, number)
        if known is None:
            return Card(head="Touch an instrument that was calibrated, or found out"), new, ()
        facts = [Fact(name, getattr(known, name)) for name in KEPT if getattr(known, name)]
        why = unfit_on(shop, known, self.desk.workshop.now())
        card = Card(number, known.reads, UNSURE if why else ACCEPT, why, tuple(facts))
        calibrated = Step("Calibrated anew", "calibrated", (number,))
        return card, calibrated, (Step("Found to read wrongly", "found_out", (number,)),)

    def _enrolled(self) -> tuple[Fact, ...]:
        """Who chose a PIN lately, and on which tablet."""
        chose = [one for one in self.desk.workshop.shop.records.values() if one.typ == "pin.enrolled"]
        chose.sort(key=display_order)
        here = self.desk.workshop.home.dev
        return tuple(
            Fact(
                one.wall[:16].replace("T", " "),
                f"{one.act} chose a PIN on {'this tablet' if one.dev == here else f'tablet {one.dev}'}",
            )
            for one in chose[-LATELY:]
        )

    # what is touched

    def topic(self, key: str) -> None:
        """Opens a topic; labels have a screen of their own."""
        if key == "labels":
            self.desk.go("labels", back=True)
        else:
            self.state["topic"] = key

    def bill(self, key: str) -> None:
        """A job is opened from a bill."""
        self.desk.open("open job", bill=key, name=Path(key).name)

    def person(self, key: str) -> None:
        """A person is registered, or gets other rights."""
        self.desk.open("person", **({"code": key} if key else {}))

    def instrument(self, key: str) -> None:
        """Takes an instrument in hand."""
        self.state["instrument"] = key

    def calibrated(self, number: str) -> None:
        """It was calibrated."""
        self.desk.open("instrument", number=number)

    def found_out(self, number: str) -> None:
        """It read wrongly since a day."""
        self.desk.open("found out", number=number)

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
