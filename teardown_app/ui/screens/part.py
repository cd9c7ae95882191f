"""One part: photographs, what it waits for, readings, where it is, its life in sentences."""

from __future__ import annotations

from teardown_app.domain.lacks.release import is_released, why_not_released
from teardown_app.domain.ledger.record import position_thing
from teardown_app.domain.measure.judging import band
from teardown_app.domain.next.step import last_gate, next_step
from teardown_app.domain.parts.caution import at_place, of_operation
from teardown_app.domain.parts.filling import place_of
from teardown_app.domain.parts.life import life_of, sentence
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.operations import left_in
from teardown_app.domain.parts.parts import (
    disposition_of,
    findings_of,
    is_part,
    number_of,
    open_holds,
    own_place,
    waiting_findings,
    word_of,
)
from teardown_app.domain.parts.routing import operation_facets, remaining, route_of, state_of, waits_open
from teardown_app.domain.places.checking import PART_TIMES, Needed, part_status, place_status, times_of
from teardown_app.domain.shop.labels import why_void
from teardown_app.ui.not_issued import SAYS, is_not_issued
from teardown_app.ui.pictures import fresh_picture, photos_of
from teardown_app.ui.plates import plate, scope_of
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, EMPTY, HOLD, REJECT, TO_DO, UNSURE, Card, Fact, Row, Step, View
from teardown_app.workflows.act import refuse
from teardown_app.workflows.asked import checks_of, times_on

AS_FOUND = ("arrival", "as found")
VERDICTS = {"accept": ACCEPT, "reject": REJECT, "inconclusive": UNSURE}


class Part(Screen):
    """Shows a part and its next step."""

    name = "part"

    @property
    def part(self) -> str:
        """The part that is shown."""
        part = str(self.state.get("part", ""))
        if not is_part(self.desk.job, part):
            return ""
        return self.desk.job.group(part)[0]

    def in_hand(self) -> str:
        return self.part

    def view(self) -> View:
        part = self.part
        if not part:
            card = Card("Gone", "That part is not recorded any more", word="Its record was taken back.")
            return View("Part", card=card, main=Step("To the jobs", "go", ("jobs",)))
        desk, job = self.desk, self.desk.job
        key = own_place(job, part)
        lacks = why_not_released(job, part)
        fitted = place_of(job, part)
        mark, word = self._stands(part, fitted)
        facts = [
            Fact(
                "is",
                f"fitted in {named(job, fitted)}" if fitted else str(job.value(part, "place", "") or "place not said"),
            ),
            Fact("disposition", disposition_of(job, part) or "none yet", "" if disposition_of(job, part) else TO_DO),
        ]
        if is_not_issued(desk, number_of(job, part)):
            facts.append(Fact("label", SAYS, UNSURE))
        void = why_void(desk.workshop.shop, number_of(job, part))
        if void:  # on another tablet, before that one knew of the part
            facts.append(Fact("label", f"it was made void {void}. Give the part a new one", UNSURE))
        facts += [Fact("finding", word_of(job, one.value), UNSURE) for one in findings_of(job, part)]
        facts += [Fact("on hold", str(hold.record.body.get("why", "")), HOLD) for hold in open_holds(job, part)]
        facts += [Fact("open", f"{lack.wrong} {lack.clears}", EMPTY) for lack in lacks]
        card = Card(
            number_of(job, part) or key[:14],
            named(job, key) or "A part that belongs to no place",
            mark,
            word,
            tuple(facts),
            photos_of(desk, part),
            self._small_steps(part),
        )
        main = self._main(part)
        ahead = remaining(job, part)
        care = [*at_place(job, key), *(said for one in ahead[:1] for said in of_operation(one))]
        return View(
            "Part",
            self._rows(part),
            "Nothing is to be done or read on this part.",
            card=card,
            main=main,
            caution=" ".join(care),
        )

    def _stands(self, part: str, fitted: str) -> tuple[str, str]:
        job = self.desk.job
        if open_holds(job, part):
            return HOLD, "on hold"
        if fitted:
            return ACCEPT, "fitted"
        if is_released(job, part):
            return ACCEPT, "released"
        return TO_DO, "not released"

    def _rows(self, part: str) -> tuple[Row, ...]:
        """The reading that is next, then operations, the other readings, and its life."""
        job = self.desk.job
        route = route_of(job, part)
        readings = {_key(thing, needed): (needed, word) for thing, needed, word in self._readings(part)}
        as_found, later = self._due(part)
        first = [key for key in (as_found, later) if key][:1]
        rows = [_reading_row(key, *readings[key]) for key in first]
        left = {one.operation.id: one.why for one in left_in(job, part, route)} if route else {}
        for one in route.operations if route else ():
            state = state_of(job, part, route.name, one.id) if route else ""
            mark = ACCEPT if one.id not in left else TO_DO if left[one.id] or state == "started" else EMPTY
            state = left.get(one.id) or state
            says = one.says or one.id
            trade = one.trade if one.trade.casefold() not in says.casefold() else ""
            rows.append(Row(f"operation {one.id}", says, trade, mark, trail=state, act="nothing"))
        rows += [_reading_row(key, *reading) for key, reading in readings.items() if key not in first]
        life = [sentence(job, record) for record in life_of(job, part)]
        rows += [Row(f"life {n}", text[17:], text[:16], act="nothing") for n, text in enumerate(reversed(life))]
        return tuple(rows)

    def _readings(self, part: str) -> list[tuple[str, Needed, str]]:
        job, act = self.desk.job, self.desk.look
        position = job.positions.get(own_place(job, part))
        if position is None:
            return []
        place, found = position_thing(position.key), []
        for check in checks_of(act, position):
            for when in times_of(check):
                for spot in check.spots or ("",):
                    needed = Needed(check, spot, when)
                    if when in PART_TIMES and when in times_on(act, part, check):
                        found.append((part, needed, part_status(job, part, needed).word))
                    elif when not in PART_TIMES:
                        found.append((place, needed, place_status(job, position, needed).word))
        return found

    def _small_steps(self, part: str) -> tuple[Step, ...]:
        job = self.desk.job
        steps = [
            Step("Finding", "open_for", ("finding",)),
            *((Step("Disposition", "open_for", ("disposition",)),) if disposition_of(job, part) else ()),
            Step("Photograph", "photograph"),
            Step("Where it lies", "open_for", ("put",)),
            Step("Written on it", "open_for", ("note",)),
            Step("Lift the hold", "hold", ("lift",))
            if open_holds(job, part)
            else Step("Put on hold", "hold", ("hold",)),
        ]
        steps += [Step(f"Answer: {word_of(job, one)}", "answer", (one,)) for one in waiting_findings(job, part)]
        if self._measured(part):
            steps.append(Step("Trend of readings", "trend"))
        steps += [Step("New label", "label"), Step("New label, printed later", "another_label")]
        if place_of(job, part):
            steps.append(Step("Take it out", "open_for", ("out",)))
        return tuple(steps)

    def _measured(self, part: str) -> bool:
        """True where a number is read on the part or its place."""
        return any(one.check.limit is not None and band(one.check.limit) for _, one, _ in self._readings(part))

    def trend(self) -> None:
        """Shows how the readings of this place moved over the jobs there were."""
        self.desk.go("trend", back=True, at=own_place(self.desk.job, self.part))

    def _main(self, part: str) -> Step:
        """What this part needs next."""
        scope = scope_of(self.desk)
        found = next_step(scope, part, gate=last_gate(scope.live))
        waits = waits_open(self.desk.job, part, self.desk.look.now)
        if found.to_do is None and waits:
            return Step(f"It rests another {waits[0][1]:.1f} h: say that it is over", "wait_over")
        if found.to_do is not None and found.to_do.about == part:
            made = plate(self.desk, found.to_do, part)
            if made is not None:
                return made
        return Step("To its assembly", "assembly")

    def _due(self, part: str) -> tuple[str, str]:
        """The next reading as found, while no work has begun on the part; and the next of the others."""
        readings = [(_key(thing, one), one.when, word) for thing, one, word in self._readings(part) if thing == part]
        untouched = not operation_facets(self.desk.job, part)
        early = next((n for n, when, word in readings if when in AS_FOUND and word == "due" and untouched), "")
        late = next((n for n, when, word in readings if when not in AS_FOUND and word.startswith("due")), "")
        return early, late

    # what is touched

    def wait_over(self) -> None:
        """The wait after an operation is said to be over."""
        self.desk.open("wait over", parts=[self.part])

    def nothing(self, key: str) -> None:
        """A row that only tells."""

    def read(self, key: str) -> None:
        """A reading is taken."""
        thing, needed, _ = next(one for one in self._readings(self.part) if _key(*one[:2]) == key)
        self.desk.open("check", thing=thing, check=needed.check.name, when=needed.when, spot=needed.spot)

    def open_for(self, form: str) -> None:
        """Opens a form for this part."""
        self.desk.open(form, part=self.part)

    def hold(self, form: str) -> None:
        """Puts on hold, or lifts."""
        self.desk.open(form, thing=self.part)

    def answer(self, finding: str) -> None:
        """The customer's answer to a finding."""
        self.desk.open("answer", finding=finding)

    def label(self) -> None:
        """A first or a new label."""
        self.desk.open("label", part=self.part, old=number_of(self.desk.job, self.part))

    def another_label(self) -> None:
        """A new number whose label is printed in the office: no roll is at hand."""
        self.desk.open("another label", part=self.part)

    def operation(self) -> None:
        """The next operation of its route is done."""
        self.desk.open("operation done", parts=[self.part])

    def photograph(self) -> None:
        """A photograph of this part."""
        self.desk.go("photograph", things=[self.part], when="in work", file=fresh_picture(self.desk), back=True)

    def assembly(self) -> None:
        """Goes to the assembly that it belongs to."""
        key = own_place(self.desk.job, self.part)
        if not key:
            refuse("It belongs to no place.", "Note where it came out of, or add a place.")
        self.desk.go("assembly", at=key)


def _key(thing: str, needed: Needed) -> str:
    """Which reading a row stands for."""
    return f"{thing} {needed.facet}"


def _reading_row(key: str, needed: Needed, word: str) -> Row:
    limit = needed.check.limit.text if needed.check.limit else ""
    mark = VERDICTS.get(word, TO_DO if word.startswith("due") else EMPTY)
    when = f"{needed.when}, {limit}" if limit else needed.when
    return Row(key, needed.says, when, mark, trail=word, act="read")
