"""The cleaning room: what waits for which operation, and a basket of scanned parts that go through it together."""

from __future__ import annotations

from teardown_app.domain.bill.route import Operation
from teardown_app.domain.parts.caution import of_operation
from teardown_app.domain.parts.life import all_parts
from teardown_app.domain.parts.parts import open_holds, parts_of_number
from teardown_app.domain.parts.routing import remaining, route_of, state_of, waits_open
from teardown_app.domain.tags.tag import Tag
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, EMPTY, HOLD, REJECT, TO_DO, Card, Fact, Row, Step, View
from teardown_app.ui.words import counted
from teardown_app.workflows.act import refuse

FAR = 14
"""So many signs can be read from two metres."""


class Cleaning(Screen):
    """Operations of the routes, and the parts that stand at each."""

    name = "cleaning"

    def view(self) -> View:
        waiting = self._waiting()
        at = str(self.state.get("at", next(iter(waiting), "")))
        rows = []
        for name, parts in waiting.items():
            begun = sum(self._begun(part) for part in parts)
            sub = f"{begun} begun" if begun else ""
            many = counted(len(parts), "part")
            rows.append(Row(f"= {name}", name, sub, TO_DO if name == at else "", trail=many, chosen=name == at))
            if name == at:
                rows += [self._row(part) for part in parts]
        empty = "Nothing waits for an operation. What comes off with a route appears here once it is tagged."
        basket = self.basket()
        operation = self._next(basket[0]) if basket else self._called(at, waiting)
        care = " ".join(of_operation(operation)) if operation else ""
        main, quiet = self._steps(basket, operation, waiting.get(at, []))
        return View(
            f"Cleaning room · {self.desk.job_name}",
            tuple(rows),
            empty,
            card=self._card(basket, operation),
            main=main,
            quiet=quiet,
            caution=care,
        )

    def _waiting(self) -> dict[str, list[str]]:
        """The parts that stand at each operation, by its words."""
        job = self.desk.job
        found: dict[str, list[str]] = {}
        for part in all_parts(job):
            left = remaining(job, part)
            if left:
                found.setdefault(_said(left[0]), []).append(part)
        return found

    def _next(self, part: str) -> Operation | None:
        left = remaining(self.desk.job, part)
        return left[0] if left else None

    def _called(self, name: str, waiting: dict[str, list[str]]) -> Operation | None:
        parts = waiting.get(name)
        return self._next(parts[0]) if parts else None

    def _begun(self, part: str) -> bool:
        job, one, route = self.desk.job, self._next(part), route_of(self.desk.job, part)
        return bool(one and route and state_of(job, part, route.name, one.id) == "started")

    def _row(self, part: str) -> Row:
        job = self.desk.job
        waits = waits_open(job, part, self.desk.look.now)
        held = open_holds(job, part)
        mark = HOLD if held else ACCEPT if part in self.basket() else TO_DO if self._begun(part) else EMPTY
        lies = str(job.value(part, "place", "") or "")
        sub = f"rests another {max(left for _, left in waits):.1f} h" if waits else lies
        return Row(part, self.desk.look.name(part), sub, mark, 1, "begun" if self._begun(part) else "")

    def basket(self) -> list[str]:
        """The parts in the basket that still have an operation before them."""
        return [one for one in self.state.get("basket", []) if remaining(self.desk.job, one)]

    def _card(self, basket: list[str], operation: Operation | None) -> Card:
        if operation is None:
            return Card("Cleaning", "Scan the parts of a basket, or touch an operation")
        bath = " · ".join(one for one in (operation.temperature, operation.time) if one)
        word = f"{len(basket)} in the basket" if basket else "the basket is empty"
        facts = [Fact("medium", operation.medium)] if operation.medium else []
        if len(bath) > FAR:
            facts.append(Fact("bath", bath))
        if operation.record:
            facts.append(Fact("write down", ", ".join(operation.record)))
        facts += [Fact("in basket", self.desk.look.name(part), ACCEPT) for part in basket]
        far = bath if 0 < len(bath) <= FAR else counted(len(basket), "part")
        return Card(far, _said(operation), TO_DO if basket else "", word, tuple(facts))

    def _steps(
        self, basket: list[str], operation: Operation | None, here: list[str]
    ) -> tuple[Step | None, tuple[Step, ...]]:
        if operation is None:
            return Step("To the teardown bench", "go", ("teardown",)), ()
        if not basket:
            return Step(f"Take all: {counted(len(here), 'part')}", "take_all"), ()
        begun = [part for part in basket if self._begun(part)]
        many = counted(len(basket), "part")
        if begun:
            done = Step(f"Done: {_said(operation)}, {many}", "work", ("operation done",))
            return done, (Step("Stop it", "work", ("operation stop",)), Step("Empty the basket", "empty"))
        begin = Step(f"Begin: {_said(operation)}, {many}", "work", ("operation start",))
        done = Step("Done already", "work", ("operation done",))
        return begin, (done, Step("Skip, with reason", "work", ("operation skip",)))

    # what is touched

    def choose(self, key: str) -> None:
        """An operation is opened; a part goes into the basket or out of it."""
        if key.startswith("= "):
            self.state["at"] = "" if self.state.get("at") == key[2:] else key[2:]
            self.state["basket"] = []
            return
        basket = self.basket()
        self.state["basket"] = [one for one in basket if one != key] if key in basket else [*basket, key]

    def take_all(self) -> None:
        """All parts that stand at the operation go into the basket, but those on hold."""
        job = self.desk.job
        waiting = self._waiting()
        here = waiting.get(str(self.state.get("at", next(iter(waiting), ""))), [])
        self.state["basket"] = [part for part in here if not open_holds(job, part)]
        if not self.state["basket"]:
            self.desk.say("All parts here are on hold. Lift the holds first.", REJECT)

    def next_operation(self) -> None:
        """Opens the next operation of the list, with an empty basket; after the last one the first."""
        names = list(self._waiting())
        if not names:
            refuse("Nothing waits for an operation.", "Tag parts at the teardown bench.")
        at = str(self.state.get("at") or names[0])
        self.state["at"] = names[(names.index(at) + 1) % len(names)] if at in names else names[0]
        self.state["basket"] = []
        self.desk.say(f"Next: {self.state['at']}")

    def empty(self) -> None:
        """Empties the basket."""
        self.state["basket"] = []

    def work(self, form: str) -> None:
        """Begins, ends, stops or skips the operation on all in the basket."""
        self.desk.open(form, parts=self.basket())

    def take_tray(self, parts: list[str]) -> None:
        one = self._next(parts[0]) if parts else None
        if one is not None:
            self.state["at"] = _said(one)
            self.state["basket"] = list(dict.fromkeys([*self.basket(), *parts]))

    def scanned(self, tag: Tag) -> bool:
        """A scanned part goes into the basket; one that stands at another operation is refused."""
        found = parts_of_number(self.desk.job, tag.number)
        if not found:
            return False
        return self._into_basket(found[0])

    def _into_basket(self, part: str) -> bool:
        name, one, basket = self.desk.look.name(part), self._next(part), self.basket()
        if one is None:
            self.desk.say(f"{name}: no operation is left. Its route is through.", REJECT)
            return True
        if basket and _said(self._next(basket[0]) or one) != _said(one):
            self.desk.say(f"{name} stands at {one.id}, the basket at another operation. Leave it out.", REJECT)
            return True
        self.state["at"] = _said(one)
        self.state["basket"] = list(dict.fromkeys([*basket, part]))
        self.desk.say(f"{len(self.state['basket'])} in the basket: {name}", ACCEPT)
        return True


def _said(operation: Operation) -> str:
    return operation.says or operation.id
