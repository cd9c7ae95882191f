"""Hands that work a job through the app: one at the desk without a window, counting what a person has to do.

A gesture is one touch, one scan, or one entry typed on a pad. `work_through` follows the screens' own next
step, so it also shows that there always is one.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.judging import band
from teardown_app.domain.parts.filling import place_of
from teardown_app.domain.parts.parts import came_from, number_of, parts
from teardown_app.ui.forms.kinds import RESULT
from teardown_app.ui.recording import TAKE_BACK
from teardown_app.ui.view import Step, View
from teardown_app.workflows.take_off import take_off
from tests.patience import WHOLE_RUN_S
from tests.ui.shop import PIN, DemoDesk


class Hand:
    """One person's hand at the desk."""

    def __init__(self, desk: DemoDesk) -> None:
        self.desk = desk
        self.gestures = 0
        self.log: list[str] = []

    @property
    def view(self) -> View:
        """What is on the glass."""
        return self.desk.view()

    def touch(self, says: str) -> None:
        """Touches what begins with these words."""
        view = self.view
        steps = [view.main, *view.quiet, *view.card.steps, *view.tabs]
        step = next((one for one in steps if one and one.says.startswith(says)), None)
        assert step, f"no step {says!r} on {view.title}: {[one.says for one in steps if one]}"
        self._did(step.says)
        self.desk.touch(step)

    def take_back(self) -> None:
        """Touches take back on the strip."""
        assert self.view.strip.step
        self._did("take back")
        self.desk.touch(TAKE_BACK)

    def row(self, text: str) -> None:
        """Touches the row that has these words."""
        row = next((one for one in self.view.rows if text in one.text), None)
        assert row, f"no row {text!r}: {[one.text for one in self.view.rows][:20]}"
        self._did(row.text)
        self.desk.row(row.act, row.key)

    def enter(self, text: str) -> None:
        """Enters the field that is open."""
        field = self.view.field
        assert field, f"nothing is asked on {self.view.title}; {self.view.scan.says}"
        self._did(f"{field.asks}: {'*' * len(text) if field.kind == 'pin' else text}")
        self.desk.entered(field.name, text)

    def scan(self, number: str) -> None:
        """Scans a label."""
        self._did(f"scan {number}")
        self.desk.scan(number)

    def sign_on(self, code: str) -> None:
        """Signs on, choosing a PIN the first time on this tablet."""
        if self.desk.screen.name == "sign on":
            self.touch(code)
        else:
            self.who()
            self.enter(code)
        while self.view.field is not None:
            self.enter(PIN)

    def pin(self) -> None:
        """Enters the PIN that an act asks for."""
        field = self.view.field
        assert field and field.kind == "pin", f"no PIN is asked on {self.view.title}; {self.view.scan.says}"
        self.enter(PIN)

    def who(self) -> None:
        """Touches the initials on the scan line."""
        self._did("who")
        self.desk.touch(Step("who", "who"))

    def _did(self, what: str) -> None:
        self.gestures += 1
        self.log.append(f"{self.desk.screen.name}: {what}")


def through(hand: Hand) -> None:
    """Waits until what goes on off the screen's thread is through, one piece after the other."""
    for _ in range(20):
        if not hand.desk.slow.says:
            return
        hand.desk.slow._under_way[0].exception(timeout=WHOLE_RUN_S)  # type: ignore[index]
        hand.desk.tick()
    raise AssertionError(f"it never ends: {hand.desk.slow.says}")


def taken_off(desk: DemoDesk, key: str) -> str:
    """A part that is off, past the screens."""
    if not came_from(desk.job, key):
        number = next(one for one in desk.roll[20:] if not desk.workshop.whose(one))
        desk.workshop.record(take_off(desk.workshop.act("MK", desk.job), key, number=number), "MK")
    return came_from(desk.job, key)[0]


def at(hand: Hand, job: str, code: str = "MK") -> None:
    """A person works on a job."""
    hand.sign_on(code)
    hand.row(job)
    hand.touch("Work on")


def reading_for(limit: Limit) -> str:
    """A reading that the limit accepts."""
    if limit.count is not None:
        return str(limit.count)
    if limit.min is not None and limit.max is not None:
        value = (limit.min + limit.max) / 2
    elif limit.min is not None:
        value = limit.min + abs(limit.min) / 10 + Decimal("0.1")
    else:
        assert limit.max is not None
        value = limit.max - abs(limit.max) / 10
    return f"{value.normalize():f} {limit.unit}".strip()


def measured_for(check: Check, field: str) -> str:
    """What a good part reads, of kinds that judge by themselves: a heater as its plate says, a balanced rotor."""
    given = dict(part.split(" = ") for part in check.given)
    if field == "measured":
        voltage, power = (Decimal(given[name].split()[0]) for name in ("voltage", "power"))
        return f"{voltage * voltage / power:.2f}"
    return {"residual_a": "1", "residual_b": "1"}[field]


def answer_for(hand: Hand) -> str:
    """What a person enters in the field that is open, when all is well."""
    desk, field = hand.desk, hand.view.field
    assert field and desk.asking.entry
    values: dict[str, Any] = desk.asking.entry.values
    if field.kind == "pin":
        return PIN
    if RESULT in field.choices:
        return RESULT
    if field.name == "uncertainty":
        return "0.001 %"
    if field.kind == "number" and "check" in values and not field.name.startswith(("value", "against")):
        return measured_for(desk.job.bill.checks[values["check"]], field.name)
    if "check" in values and field.name.startswith("value"):
        limit = desk.job.bill.checks[values["check"]].limit
        assert limit
        return reading_for(band(limit) or limit)
    if field.name == "against":  # as the reading itself will be
        return reading_for(desk.job.bill.checks[values["check"]].limit)
    if field.kind == "tag":
        return next(number for number in desk.roll if not desk.workshop.whose(number))
    if field.name == "began" and not field.choices:
        return "0.00"  # of today: before whatever time it is now
    fixed = {
        "answer": "good",
        "as": "use as is",
        "lot": "L-2026-11",
        "expiry": "2031-01-31",
        "meaning": "approved",
    }
    return fixed.get(field.name) or (field.choices[0] if field.choices else "B2")


def answer_all(hand: Hand) -> None:
    """Enters whatever is asked until nothing is."""
    for _ in range(12):
        if hand.view.field is None:
            return
        hand.enter(answer_for(hand))
    raise AssertionError(f"it never stops asking: {hand.log[-14:]}")


def take_apart(hand: Hand) -> None:
    """The technician: everything comes off, is tagged and counted."""
    hand.touch("Teardown")
    for _ in range(400):
        main = hand.view.main
        assert main
        if main.says.startswith("See what is open"):
            return
        if main.says.startswith(("Tag", "Scan a label")):
            hand.touch("Good")
            hand.scan(answer_tag(hand.desk))
        else:
            hand.touch(main.says)
            answer_all(hand)
    raise AssertionError(f"the teardown never ends: {hand.log[-8:]}")


def to_the_label(hand: Hand) -> None:
    """A technician on the rinser-dryer, where the next part wants its label."""
    at(hand, "BRD-25", "MK")
    hand.touch("Count")
    hand.enter("1")
    hand.touch("Scan a label")


def answer_tag(desk: DemoDesk) -> str:
    """The next free label of the roll."""
    return next(number for number in desk.roll if not desk.workshop.whose(number))


def follow(hand: Hand, part: str, until: tuple[str, ...]) -> None:
    """Scans a part and does what its card says next, until one of these steps stands there."""
    hand.scan(number_of(hand.desk.job, part)) if number_of(hand.desk.job, part) else hand.desk.go("part", part=part)
    for _ in range(40):
        main = hand.view.main
        assert main
        if main.says.startswith(until):
            return
        before = len(hand.desk.job.records)
        hand.touch(main.says)
        answer_all(hand)
        assert len(hand.desk.job.records) > before, f"{main.says} did nothing: {hand.view.scan.says}"
    raise AssertionError(f"{part} is never through: {hand.log[-8:]}")


def make_good(hand: Hand) -> None:
    """Everything up to the release, part after part."""
    hand.touch("Open points")
    for part in parts(hand.desk.job):
        if not place_of(hand.desk.job, part):
            follow(hand, part, ("Release it", "Fit it", "To its assembly"))
            hand.touch("Open points")


def clear_points(hand: Hand) -> None:
    """The assembler: goes to each open point and does what stands there, until nothing is open."""
    stuck: set[str] = set()
    for _ in range(900):
        hand.touch("Open points")
        main = hand.view.main
        assert main
        if main.says.startswith("Close and sign"):
            return
        standing = [one for one in hand.desk.points() if one.state == "open"]
        point = next((one for one in standing if one.key not in stuck), None)
        assert point, f"stuck at {[one.wrong for one in standing][:6]}; last {hand.log[-6:]}"
        hand.desk.row("choose", point.key)
        hand.touch("Go to")
        before = len(hand.desk.job.records)
        early = [one for one in hand.view.card.steps if one.says == "Tighten it now"] if hand.view.card else []
        step = early[0] if early else hand.view.main
        if step and not step.says.startswith(("Next place", "See", "To ", "Bring in")):
            hand.touch(step.says)
            answer_all(hand)
        if len(hand.desk.job.records) == before:
            stuck.add(point.key)
        else:
            stuck.clear()
    raise AssertionError(f"never complete: {[one.wrong for one in hand.desk.points()][:6]}; last {hand.log[-8:]}")
