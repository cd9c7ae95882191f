"""Several labels in one picture: each outlined and numbered, and one touch takes all that may go.

It comes from the screen that was open and goes back to it. From the cleaning room they go into the basket, and into
a carrier where one is in the picture; from elsewhere into a carrier or a place.
"""

from __future__ import annotations

from attrs import frozen

from teardown_app.domain.filling import place_of
from teardown_app.domain.parts import open_holds, parts_of_number
from teardown_app.domain.points.point import named
from teardown_app.domain.routing import remaining
from teardown_app.domain.tag import Tag, parse
from teardown_app.ui.label_reader import Label, label_from
from teardown_app.ui.scanning import is_tag
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import (
    ACCEPT,
    EMPTY,
    HOLD,
    REJECT,
    TO_DO,
    UNSURE,
    Card,
    Fact,
    Spot,
    Step,
    View,
)
from teardown_app.ui.view import Tray as Picture
from teardown_app.ui.words import counted
from teardown_app.workflows.put import put

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


class Tray(Screen):
    """A picture of a tray."""

    name = "tray"

    # what is on it

    def _labels(self) -> list[Label]:
        return [label_from(one) for one in self.state.get("labels", [])]

    def found(self) -> list[Found]:
        """What each label is, in the order of the picture."""
        labels = self._labels()
        operation = self._operation(labels)
        return [self._found(one, operation) for one in labels]

    def _found(self, label: Label, operation: str) -> Found:
        text = label.text[:40]
        if not label.ours or not is_tag(label.text):
            return Found(label, UNSURE, f"{text}: foreign")
        if label.offered:
            return Found(label, UNSURE, f"{text}: hard to read. Scan it alone")
        tag = parse(label.text)
        parts = parts_of_number(self.desk.job, tag.number)
        if parts:
            mark, why = self._why_not(parts[0], operation)
            name = self.desk.look.name(parts[0])
            return Found(label, mark, f"{name}: {why}" if why else name, "" if why else parts[0])
        into = self._into(tag)
        if into:
            return Found(label, TO_DO, f"{tag.names} {self._called(into)}", into=into)
        other = self.desk.elsewhere(tag.number)
        says = f"{text}: belongs to {other}" if other else f"{text}: a {tag.names} label, on nothing here"
        return Found(label, REJECT if other else EMPTY, says)

    def _why_not(self, part: str, operation: str) -> tuple[str, str]:
        """Mark of a part of this job, and why it does not go; empty when it goes."""
        job = self.desk.job
        if part in self.state.get("left", []):
            return EMPTY, "left out"
        fitted = place_of(job, part)
        if fitted:
            return REJECT, f"is fitted in {named(job, fitted)}"
        if self.state.get("came") != CLEANING:
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

    def _operation(self, labels: list[Label]) -> str:
        """The operation that the tray goes through: that of the basket, else where most of its parts stand."""
        if self.state.get("came") != CLEANING:
            return ""
        basket = [str(one) for one in self.state.get("before", {}).get("basket", [])]
        if basket and self._stands_at(basket[0]):
            return self._stands_at(basket[0])
        here = [parts_of_number(self.desk.job, one.text) for one in labels if one.ours]
        stands = [name for parts in here if parts and (name := self._stands_at(parts[0]))]
        return max(stands, key=stands.count) if stands else ""

    def _into(self, tag: Tag) -> str:
        """The name under which parts are put there; empty where nothing is recorded of the label."""
        shop = self.desk.workshop.shop
        if any(one.get("number") == tag.number for one in shop.carriers()):
            return tag.number
        return next((str(one["name"]) for one in shop.places() if one.get("number") == tag.number), "")

    def _called(self, into: str) -> str:
        """What people call a carrier; a place is called by its name already."""
        carriers = self.desk.workshop.shop.carriers()
        return next((str(one.get("name") or into) for one in carriers if one.get("number") == into), into)

    # what is shown

    def view(self) -> View:
        found = self.found()
        goes = [one.part for one in found if one.part]
        spots = tuple(
            Spot(one.label.text, one.label.corners, str(n), one.mark, "", one.says.endswith("left out"))
            for n, one in enumerate(found, 1)
        )
        into = self._target(found)
        listed = sorted(enumerate(found, 1), key=lambda one: bool(one[1].part))  # what stays stands first
        facts = tuple(Fact(str(n), one.says, one.mark) for n, one in listed)
        every = sum(not one.into for one in found)
        stay = every - len(goes)
        word = f"{stay} {'stays' if stay == 1 else 'stay'} out: the list says why" if stay else ""
        picture = Picture(str(self.state.get("file", "")), spots, "Touch a label to leave it out")
        cleaning = self.state.get("came") == CLEANING
        other = "Into another carrier or place" if into else "Into a carrier or place"
        elsewhere = (Step(other, "choose_place"),) if into or cleaning else ()
        main, quiet = self._steps(goes, into, found)
        far, head = f"{len(goes)} of {every}", "labels can be taken"
        return View(
            f"Tray · {self.desk.job_name}",
            tray=picture,
            empty="The picture is not here any more. Show the labels again.",
            card=Card(far, head, ACCEPT if goes else REJECT, word, facts, (), elsewhere if goes else ()),
            main=main,
            quiet=quiet,
        )

    def _target(self, found: list[Found]) -> str:
        """Carrier or place: scanned on this screen, else the one in the picture."""
        return str(self.state.get("into", "")) or next((one.into for one in found if one.into), "")

    def _steps(self, goes: list[str], into: str, found: list[Found]) -> tuple[Step, tuple[Step, ...]]:
        many, called = counted(len(goes), "part"), self._called(into)
        none = "None of these labels can go. The list says why."
        ready = bool(goes)
        if self.state.get("came") == CLEANING:
            done = Step(f"Done: {self._operation(self._labels())}", "done", ready=ready, why_not=none)
            says = f"Put {many} into {called}" if into else f"Take {many} into the basket"
            return Step(says, "take", ready=ready, why_not=none), (done,)
        if into:
            return Step(f"Put {many} into {called}", "take", ready=ready, why_not=none), ()
        return Step(f"Put {many} into a carrier or place", "choose_place", ready=ready, why_not=none), ()

    # what is touched

    def flag(self, key: str) -> None:
        """A label is left out, or taken in again."""
        for part in parts_of_number(self.desk.job, key):
            left = [str(one) for one in self.state.get("left", [])]
            self.state["left"] = [one for one in left if one != part] if part in left else [*left, part]

    def scanned(self, tag: Tag) -> bool:
        """A scanned carrier or place is where they go."""
        into = self._into(tag)
        if into:
            self.state["into"] = into
            self.desk.say(f"They go into {self._called(into)}.", ACCEPT)
        return bool(into)

    def take(self, into: str = "") -> None:
        """All that go are put into the carrier or place, and from the cleaning room into the basket."""
        desk, found = self.desk, self.found()
        goes, target = [one.part for one in found if one.part], into or self._target(found)
        if target:
            says = f"{counted(len(goes), 'part')} into {self._called(target)}"
            desk.act(lambda act: put(act, goes, target), says)
        desk.go_back()
        desk.screen.take_tray(goes)
        if not target:
            desk.say(f"{len(goes)} in the basket.", ACCEPT)

    def done(self) -> None:
        """They are taken, and the operation is done on all of them."""
        self.take()
        self.desk.open("operation done", parts=list(self.desk.screen.state.get("basket", [])))

    def choose_place(self) -> None:
        """Asks where they go."""
        self.desk.open("tray")
