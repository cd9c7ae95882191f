"""Several labels in one picture: each outlined and numbered, and one touch takes all that may go.

It comes from the screen that was open and goes back to it. From the cleaning room they go into the basket, and into
a carrier where one is in the picture; from elsewhere into a carrier or a place. Several of these: it is asked which.
"""

from __future__ import annotations

from teardown_app.domain.tags.tag import Tag, parse
from teardown_app.ui.on_tray import Found, OnTray
from teardown_app.ui.scanning import is_tag
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, REJECT, Card, Fact, Spot, Step, View
from teardown_app.ui.view import Tray as Picture
from teardown_app.ui.words import counted
from teardown_app.workflows.act import refuse
from teardown_app.workflows.put import put


class Tray(Screen):
    """A picture of a tray."""

    name = "tray"

    def _on(self) -> OnTray:
        return OnTray(self.desk, self.state)

    def found(self) -> list[Found]:
        """What each label is, in the order of the picture."""
        return self._on().found()

    # what is shown

    def view(self) -> View:
        on = self._on()
        found = on.found()
        goes = [one.part for one in found if one.part]
        spots = tuple(
            Spot(one.label.text, one.label.corners, str(n), one.mark, "", one.says.endswith("left out"))
            for n, one in enumerate(found, 1)
        )
        targets = self._targets(found)
        listed = sorted(enumerate(found, 1), key=lambda one: bool(one[1].part))  # what stays stands first
        facts = tuple(Fact(str(n), one.says, one.mark) for n, one in listed)
        every = sum(not one.into and not one.again for one in found)
        stay = every - len(goes)
        word = f"{stay} {'stays' if stay == 1 else 'stay'} out: the list says why" if stay else ""
        touch = "Touch the carrier or place they go into" if len(targets) > 1 else "Touch a label to leave it out"
        picture = Picture(str(self.state.get("file", "")), spots, touch)
        other = "Into another carrier or place" if targets else "Into a carrier or place"
        elsewhere = (Step(other, "choose_place"),) if targets or on.from_cleaning else ()
        main, quiet = self._steps(on, goes, targets)
        far, head = f"{len(goes)} of {every}", "labels can be taken"
        return View(
            f"Tray · {self.desk.job_name}",
            tray=picture,
            empty="The picture is not here any more. Show the labels again.",
            card=Card(far, head, ACCEPT if goes else REJECT, word, facts, (), elsewhere if goes else ()),
            main=main,
            quiet=quiet,
        )

    def _targets(self, found: list[Found]) -> list[str]:
        """Where they go: what was said on this screen, else each carrier and place in the picture."""
        said = str(self.state.get("into", ""))
        return [said] if said else list(dict.fromkeys(one.into for one in found if one.into))

    def _steps(self, on: OnTray, goes: list[str], targets: list[str]) -> tuple[Step, tuple[Step, ...]]:
        many, ready = counted(len(goes), "part"), bool(goes)
        none = "None of these labels can go. The list says why."
        says, act = f"Put {many} into a carrier or place", "choose_place"
        if len(targets) > 1:
            says, act = "Choose where they go", "choose_which"
        elif targets:
            says, act = f"Put {many} into {on.called(targets[0])}", "take"
        elif on.from_cleaning:
            says, act = f"Take {many} into the basket", "take"
        main = Step(says, act, ready=ready, why_not=none)
        if not on.from_cleaning:
            return main, ()
        done, is_open = f"Done: {on.operation()}", len(targets) > 1
        if ready and is_open:
            none = " ".join(self._which(on, targets))
        return main, (Step(done, "done", ready=ready and not is_open, why_not=none),)

    def _which(self, on: OnTray, targets: list[str]) -> tuple[str, str]:
        """What is in the way while it is open which of several they go into, and what to do."""
        names = " and ".join(on.called(one) for one in targets)
        return f"{names} are in the picture.", "Touch the label of the one that the parts go into."

    # what is touched

    def flag(self, key: str) -> None:
        """A part is left out or taken in again; into the carrier or place of a touched label they go."""
        part = self._on().part_of(key)
        if part:
            left = [str(one) for one in self.state.get("left", [])]
            self.state["left"] = [one for one in left if one != part] if part in left else [*left, part]
        elif is_tag(key):
            self.scanned(parse(key))

    def scanned(self, tag: Tag) -> bool:
        """A scanned carrier or place is where they go."""
        into, called = self._on().goals().get(tag.number, ("", ""))
        if into:
            self.state["into"] = into
            self.desk.say(f"They go into {called}.", ACCEPT)
        return bool(into)

    def take(self, into: str = "") -> None:
        """All that go are put into the carrier or place, and from the cleaning room into the basket."""
        desk, on, found = self.desk, self._on(), self.found()
        goes, targets = [one.part for one in found if one.part], [into] if into else self._targets(found)
        if len(targets) > 1:
            refuse(*self._which(on, targets))
        if targets:
            says = f"{counted(len(goes), 'part')} into {on.called(targets[0])}"
            desk.act(lambda act: put(act, goes, targets[0]), says)
        desk.go_back()
        desk.screen.take_tray(goes)
        if not targets:
            desk.say(f"{len(goes)} in the basket.", ACCEPT)

    def done(self) -> None:
        """They are taken, and the operation is done on all of them."""
        self.take()
        self.desk.open("operation done", parts=list(self.desk.screen.state.get("basket", [])))

    def choose_place(self) -> None:
        """Asks where they go."""
        self.desk.open("tray")

    def choose_which(self) -> None:
        """Asks which of the carriers and places in the picture they go into."""
        on = self._on()
        targets = self._targets(on.found())
        names = [on.called(one) for one in targets]
        clear = names if len(set(names)) == len(names) else targets
        self.desk.open("tray", among=[list(one) for one in zip(clear, targets, strict=True)])
