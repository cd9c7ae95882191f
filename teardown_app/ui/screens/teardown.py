"""The teardown bench: the tool as an indented list, and the next thing to come off."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Position
from teardown_app.domain.next.next_off import is_off, next_off, off_state
from teardown_app.domain.parts.caution import at_place
from teardown_app.domain.parts.parts import came_from, number_of, open_holds, own_place, parts_of_number
from teardown_app.domain.places.scope import scope_of
from teardown_app.domain.tags.tag import Tag
from teardown_app.ui.pictures import fresh_picture, photos_of
from teardown_app.ui.screen import Screen
from teardown_app.ui.tree import tree_rows
from teardown_app.ui.view import ACCEPT, EMPTY, HOLD, TO_DO, Card, Fact, Step, View


class Teardown(Screen):
    """Takes the tool apart, one place after the other."""

    name = "teardown"

    def view(self) -> View:
        job = self.desk.job
        position = self._position()
        at = position.key if position else ""
        rows = tree_rows(job, at, self.state.get("opened", ""), self._mark, self.desk.tally("off"))
        if position is None:
            done = Card("All off", "Everything that is asked for came off or is counted", ACCEPT)
            return View(
                "Teardown", rows, card=done, main=Step("See what is open", "go", ("points",)), quiet=(_EXTRA,), show=at
            )
        care = at_place(job, at)
        main, quiet = self._steps(position)
        return View(
            f"Teardown · {self.desk.job_name}",
            rows,
            card=self._card(position),
            main=main,
            quiet=quiet,
            caution=" ".join(care),
            show=at,
        )

    def _position(self) -> Position | None:
        job = self.desk.job
        chosen = job.positions.get(str(self.state.get("at", "")))
        return chosen or next_off(job, own_place(job, str(self.state.get("last", ""))))

    def _mark(self, key: str, at: str) -> str:
        job, tally = self.desk.job, self.desk.tally("off")
        if any(open_holds(job, part) for part in came_from(job, key)):
            return HOLD
        done, wanted = tally.counts.get(key, (0, 0))
        state = done == wanted if wanted else off_state(job, key)
        if state is None or wanted:
            return ACCEPT if state else ""
        return ACCEPT if state else TO_DO if key == at else EMPTY

    def _card(self, position: Position) -> Card:
        job, line = self.desk.job, position.line
        facts = [Fact("part number", line.part_number)]
        if line.material:
            facts.append(Fact("material", line.material))
        if line.write_down:
            facts.append(Fact("write down", ", ".join(line.write_down), TO_DO))
        for part in came_from(job, position.key):
            place = job.value(part, "place", "")
            facts.append(Fact("came off", f"{number_of(job, part) or 'no label'}, {place or 'place not said'}", ACCEPT))
        scope = scope_of(job, position.key)
        word = "" if scope.counts == "in" else f"{scope.word}: {scope.why}".strip(": ")
        return Card(
            position.key,
            line.description,
            TO_DO if not is_off(job, position.key) else ACCEPT,
            word,
            tuple(facts),
            photos_of(self.desk, f"@{position.key}", *came_from(job, position.key)),
            self._small_steps(position),
        )

    def _small_steps(self, position: Position) -> tuple[Step, ...]:
        key, there = position.key, came_from(self.desk.job, position.key)
        if position.line.kind == "hardware":
            return (
                Step("In one bag with others", "count", (key, "shared")),
                Step("Photograph", "photograph", (key,)),
                Step("Not on this tool", "received", (key,)),
            )
        if there:
            part = there[0]
            return (
                Step("Finding", "open_for", ("finding", part)),
                Step("Photograph", "photograph", (key,)),
                Step("Where it lies", "open_for", ("put", part)),
                Step("Written on it", "open_for", ("note", part)),
            )
        chosen = str(self.state.get("condition", ""))
        conditions = [
            Step(word.capitalize(), "condition", (word,), chosen=word == chosen)
            for word in self.desk.workshop.words["conditions"]
        ]
        return (
            *conditions,
            Step("Photograph", "photograph", (key,)),
            Step("Came loose", "off", ("label", "came loose")),
            Step("Label printed later", "off", ("new", "taken off")),
            Step("Not on this tool", "received", (key,)),
        )

    def _steps(self, position: Position) -> tuple[Step, tuple[Step, ...]]:
        job, key = self.desk.job, position.key
        name = f"{position.line.description} {key}"
        if position.line.kind == "hardware":
            return Step(f"Count {name}", "count", (key,)), (_EXTRA,)
        there = came_from(job, key)
        if there:
            unlabelled = not number_of(job, there[0])
            first = Step("Put a label on it", "open_for", ("label", there[0])) if unlabelled else None
            return Step("Go on with the next", "next"), tuple(one for one in (first, _EXTRA) if one)
        upcoming = self.desk.labels.next_of_roll(job)
        main = (
            Step(f"Tag {name} with {upcoming[-5:]}", "off", ("label", "taken off", upcoming))
            if upcoming
            else Step(f"Scan a label for {name}", "off", ("label", "taken off"))
        )
        return main, (Step("Without a label", "off", ("place", "taken off")), _EXTRA)

    # what is touched

    def choose(self, key: str) -> None:
        """Takes a place in hand; an assembly opens or closes."""
        children = self.desk.job.children(key)
        if children:
            self.state["opened"] = "" if self.state.get("opened") == key and self.state.get("at") == key else key
        self.state["at"] = key

    def next(self) -> None:
        """Goes on with the next place."""
        at = self.state.pop("at", "")
        there = came_from(self.desk.job, str(at))
        if there:
            self.state["last"] = there[0]

    def condition(self, word: str) -> None:
        """The condition of the part that comes off; touched again it is none."""
        self.state["condition"] = "" if self.state.get("condition") == word else word

    def off(self, with_: str, how: str, number: str = "") -> None:
        """A part comes off with a label, which may be known already, or into a place."""
        position = self._position()
        values = {"key": position.key if position else "", "with": with_, "how": how}
        values["condition"] = str(self.state.get("condition", ""))
        self.desk.open("take off", **values, **({"number": number} if number else {}))

    def came_off(self, part: str) -> None:
        self.state["last"] = part
        self.state.pop("at", None)
        self.state.pop("condition", None)

    def extra(self) -> None:
        """A part that belongs to no place."""
        self.desk.open("extra part", how="extra", key="")

    def count(self, key: str, shared: str = "") -> None:
        """Hardware is counted, alone or `shared` with what lies in the same bag."""
        self.state.pop("at", None)
        self.desk.open("count", key=key, **({"shared": True} if shared else {}))

    def received(self, key: str) -> None:
        """A place is not on this tool, or was not received."""
        self.desk.open("received", key=key)

    def open_for(self, form: str, part: str) -> None:
        """Opens a form for a part."""
        self.desk.open(form, part=part)

    def photograph(self, key: str) -> None:
        """Takes or chooses a photograph of this place and others on it."""
        there = came_from(self.desk.job, key)
        self.desk.go(
            "photograph", things=there or [f"@{key}"], when="as found", file=fresh_picture(self.desk), back=True
        )

    def in_hand(self) -> str:
        position = self._position()
        there = came_from(self.desk.job, position.key) if position else []
        return there[0] if there else ""

    def scanned(self, tag: Tag) -> bool:
        """A free label goes on the part in hand; a bag's label is where the screws in hand are counted into."""
        position = self._position()
        if tag.letter == "P" and not parts_of_number(self.desk.job, tag.number) and not self.desk.elsewhere(tag.number):
            if position is None or position.line.kind == "hardware" or came_from(self.desk.job, position.key):
                return False
            self.off("label", "taken off", tag.number)
            return True
        if tag.letter == "H" and position is not None and position.line.kind == "hardware":
            self.state.pop("at", None)
            self.desk.open("count", key=position.key, bag=tag.number)
            return True
        return False


_EXTRA = Step("Extra part", "extra")
