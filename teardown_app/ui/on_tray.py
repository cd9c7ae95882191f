"""What lies on a tray: each label of its picture, what it stands for, and why it does not go.

A part counts once, however many of its labels are in the picture: it goes by the one that it has now.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from attrs import frozen

from teardown_app.domain.parts.filling import place_of
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import number_of, open_holds, parts_of_number
from teardown_app.domain.parts.routing import remaining
from teardown_app.domain.tags.tag import Tag, parse
from teardown_app.ui.label_reader import Label, label_from
from teardown_app.ui.scanning import is_tag
from teardown_app.ui.view import ACCEPT, EMPTY, HOLD, REJECT, TO_DO, UNSURE

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

CLEANING = "cleaning"


@frozen
class Found:
    """One label of the picture: what it stands for, and why it does not go."""

    label: Label
    mark: str
    says: str
    part: str = ""
    into: str = ""
    """The carrier or place that it is the label of."""
    again: bool = False
    """Another label of a part that is in the picture already."""


class OnTray:
    """The labels of one picture, at the desk that it was shown to."""

    def __init__(self, desk: Desk, state: dict[str, Any]) -> None:
        self.desk, self.state = desk, state
        self.labels = [label_from(one) for one in state.get("labels", [])]
        self.from_cleaning = state.get("came") == CLEANING

    def found(self) -> list[Found]:
        """What each label is, in the order of the picture."""
        operation, bearers, goals = self.operation(), self._bearers(), self.goals()
        return [self._found(one, operation, bearers, goals) for one in self.labels]

    def _found(self, label: Label, operation: str, bearers: dict[str, str], goals: dict[str, tuple[str, str]]) -> Found:
        text = label.text[:40]
        if not label.ours or not is_tag(label.text):
            return Found(label, UNSURE, f"{text}: foreign")
        if label.offered:
            return Found(label, UNSURE, f"{text}: hard to read. Scan it alone")
        tag = parse(label.text)
        parts = parts_of_number(self.desk.job, tag.number)
        if len(parts) > 1:
            return Found(label, REJECT, f"{text} is on {len(parts)} parts: see the open points")
        if parts and bearers[parts[0]] != label.text:
            return Found(label, EMPTY, f"{text}: another label of {self.desk.look.name(parts[0])}", again=True)
        if parts:
            mark, why = self._why_not(parts[0], operation)
            name = self.desk.look.name(parts[0])
            return Found(label, mark, f"{name}: {why}" if why else name, "" if why else parts[0])
        if tag.number in goals:
            into, called = goals[tag.number]
            mark = TO_DO if self.state.get("into", into) == into else EMPTY
            return Found(label, mark, f"{tag.names} {called}", into=into)
        return self._of_nothing_here(label, tag)

    def _of_nothing_here(self, label: Label, tag: Tag) -> Found:
        text, other = label.text[:40], self.desk.elsewhere(tag.number)
        says = f"{text}: belongs to {other}" if other else f"{text}: a {tag.names} label, on nothing here"
        return Found(label, REJECT if other else EMPTY, says)

    def part_of(self, text: str) -> str:
        """The one part of this job that a label stands for; empty for none, and for several."""
        parts = parts_of_number(self.desk.job, parse(text).number) if is_tag(text) else []
        return parts[0] if len(parts) == 1 else ""

    def _bearers(self) -> dict[str, str]:
        """For each part the label by which it goes: the one that it has now, else the first in the picture."""
        bearers: dict[str, str] = {}
        for text in (one.text for one in self.labels if one.ours and not one.offered):
            part = self.part_of(text)
            if part and (part not in bearers or parse(text).number == number_of(self.desk.job, part)):
                bearers[part] = text
        return bearers

    def _why_not(self, part: str, operation: str) -> tuple[str, str]:
        """Mark of a part of this job, and why it does not go; empty when it goes."""
        job = self.desk.job
        if part in self.state.get("left", []):
            return EMPTY, "left out"
        fitted = place_of(job, part)
        if fitted:
            return REJECT, f"is fitted in {named(job, fitted)}"
        if not self.from_cleaning:
            return ACCEPT, ""
        if open_holds(job, part):
            return HOLD, "on hold"
        stands = self._stands_at(part)
        if stands != operation:
            return REJECT, f"stands at {stands}" if stands else "its route is through"
        return ACCEPT, ""

    def _stands_at(self, part: str) -> str:
        left = remaining(self.desk.job, part)
        return left[0].says or left[0].id if left else ""

    def operation(self) -> str:
        """The operation that the tray goes through: that of the basket, else where most of its parts stand."""
        if not self.from_cleaning:
            return ""
        basket = [str(one) for one in self.state.get("before", {}).get("basket", [])]
        if basket and self._stands_at(basket[0]):
            return self._stands_at(basket[0])
        stands = [name for part in self._bearers() if (name := self._stands_at(part))]
        return max(stands, key=stands.count) if stands else ""

    def goals(self) -> dict[str, tuple[str, str]]:
        """Carriers and places by the number on their label: under what parts are put there, what people call it."""
        shop = self.desk.workshop.shop
        places = {one.number: (one.name, one.name) for one in shop.places() if one.number}
        numbers = {one.number: one.name or one.number for one in shop.carriers()}
        return {**places, **{number: (number, name) for number, name in numbers.items()}}

    def called(self, into: str) -> str:
        """What people call a carrier or place under which parts are put."""
        return dict(self.goals().values()).get(into, into)
