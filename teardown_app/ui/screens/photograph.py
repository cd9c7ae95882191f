"""A photograph: chosen, marked with rings and arrows, and recorded of all the parts it shows."""

from __future__ import annotations

from pathlib import Path

from teardown_app.domain.parts.parts import parts_of_number
from teardown_app.domain.tags.tag import Tag
from teardown_app.records import photographs
from teardown_app.ui.pictures import kept_picture, pictures_folder, pictures_in
from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, Card, Fact, Photo, Ring, Row, Step, View
from teardown_app.ui.words import counted
from teardown_app.workflows.act import Act, Drafts, refuse
from teardown_app.workflows.photograph import WHENS, photograph

RING_RADIUS = 0.06


class Photograph(Screen):
    """One picture of several parts or places."""

    name = "photograph"

    def view(self) -> View:
        things = self._things()
        facts = tuple(Fact("shows", self._named(thing), ACCEPT) for thing in things)
        file = str(self.state.get("file", ""))
        when = str(self.state.get("when") or WHENS[0])
        steps = tuple(Step(word.capitalize(), "say_when", (word,), chosen=word == when) for word in WHENS)
        card = Card(head="What is on the picture", word="Scan more parts that are on it", facts=facts, steps=steps)
        if not file:
            rows = tuple(
                Row(str(path), path.name, path.parent.name) for path in pictures_in(pictures_folder(self.desk))
            )
            empty = f"No picture in {pictures_folder(self.desk)}. Let the camera save there, then look again."
            return View("Photograph", rows, empty, card=card, main=Step("Look again", "look_again"))
        rings = tuple(Ring(*one) for one in self.state.get("rings", []))
        photo = Photo(file, rings, "Touch what matters; draw a stroke for an arrow")
        quiet = (Step("Another picture", "another"), Step("Clear the marks", "clear"))
        return View(
            "Photograph",
            photo=photo,
            card=card,
            main=Step(f"Keep it: {counted(len(things), 'thing')} on it", "keep"),
            quiet=quiet,
        )

    def _things(self) -> list[str]:
        return [str(one) for one in self.state.get("things", [])] or ["job"]

    def _named(self, thing: str) -> str:
        return "the whole tool" if thing == "job" else self.desk.look.name(thing)

    def choose(self, key: str) -> None:
        """A picture was chosen."""
        self.state["file"] = key
        self.state["rings"] = []

    def look_again(self) -> None:
        """Looks for new pictures."""

    def another(self) -> None:
        """Chooses another picture."""
        self.state["file"] = ""

    def clear(self) -> None:
        """Takes the marks away."""
        self.state["rings"] = []

    def say_when(self, word: str) -> None:
        """Says at which time of the job the picture was taken."""
        self.state["when"] = word

    def ring(self, x: float, y: float, from_x: float, from_y: float) -> None:
        """A mark was set: fractions from the top left."""
        self.state.setdefault("rings", []).append([x, y, from_x, from_y])

    def scanned(self, tag: Tag) -> bool:
        """A part that is on the picture too."""
        found = parts_of_number(self.desk.job, tag.number)
        if not found:
            return False
        self.state["things"] = list(dict.fromkeys([*self.state.get("things", []), found[0]]))
        self.desk.say(f"On the picture: {self._named(found[0])}.", ACCEPT)
        return True

    def keep(self) -> None:
        """Keeps the picture without metadata, and a copy with the marks."""
        file = Path(str(self.state["file"]))
        if not file.is_file():
            refuse(f"{file.name} is not there any more.", "Choose another picture.")
        picture = photographs.prepare(file.read_bytes(), file.name)
        marks = [_mark(*one) for one in self.state.get("rings", [])]
        pictures = [picture, *([photographs.marked(picture.data, file.name, marks)] if marks else [])]
        desk, things = self.desk, self._things()
        digests = [desk.workshop.digest(one.data) for one in pictures]
        when = str(self.state.get("when") or WHENS[0])

        def build(act: Act) -> Drafts:
            drafts = photograph(act, things, digests, when=when)  # what is refused leaves no picture behind
            for one in pictures:
                desk.workshop.home.attach(one.data, one.ext)
            return drafts

        desk.act(build, f"Photograph of {', '.join(self._named(thing) for thing in things)}.")
        kept_picture(desk, file)
        desk.go_back()


def _mark(x: float, y: float, from_x: float, from_y: float) -> photographs.Ring | photographs.Arrow:
    if from_x < 0:
        return photographs.Ring(x, y, RING_RADIUS)
    return photographs.Arrow(from_x, from_y, x, y)
