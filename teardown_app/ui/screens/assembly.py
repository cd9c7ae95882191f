"""The assembly bench: the drawing with flags that fill, yes or no for a scanned part, and what is open here."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.against.torque import against_torque
from teardown_app.domain.bill.bill import Position
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import RESTS
from teardown_app.domain.lacks.release import is_released, why_not_released
from teardown_app.domain.ledger.record import is_position, position_thing
from teardown_app.domain.next.next_off import off_state
from teardown_app.domain.next.step import BENCHES, last_gate, next_step
from teardown_app.domain.parts.caution import at_place
from teardown_app.domain.parts.filling import gone_along, place_of
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import came_from, number_of, own_place, parts_of_number
from teardown_app.domain.places.consumable import ON_CONDITION, rule_of, what_is_due
from teardown_app.domain.places.hardware import put_in
from teardown_app.domain.places.joint import asks_wrench, has_torque, pass_says, passes_left
from teardown_app.domain.places.torqued import wrenches_now
from teardown_app.domain.points.point import OPEN, Point
from teardown_app.domain.tags.tag import Tag
from teardown_app.ui.pictures import drawing_of, fresh_picture, photos_of
from teardown_app.ui.plates import plate, scope_of
from teardown_app.ui.screen import Screen
from teardown_app.ui.tree import tree_rows
from teardown_app.ui.units import shown_torque
from teardown_app.ui.view import ACCEPT, EMPTY, REJECT, TO_DO, UNSURE, Card, Drawing, Fact, Flag, Step, View
from teardown_app.ui.words import counted
from teardown_app.workflows.act import Refused
from teardown_app.workflows.fit import ALL
from teardown_app.workflows.fit import fit as fit_parts
from teardown_app.workflows.release import ready

SHOWN_POINTS = 5


class Assembly(Screen):
    """Puts the tool together again."""

    name = "assembly"

    def view(self) -> View:
        job = self.desk.job
        position = self._position()
        key = position.key if position else ""
        assembly = self._assembly(key)
        points = [one for one in self.desk.points() if one.state == OPEN and self._is_here(one, assembly)]
        drawing = None if self.state.get("list") else self._drawing(assembly, key)
        main, quiet = self._steps(position, assembly, points)
        other = (Step("List of places", "show_list"),) if drawing else ()
        if self.state.get("list"):
            other = (Step("Drawing", "show_drawing"),)
        return View(
            f"{named(job, assembly) or 'Assembly'} · {len(points)} open here",
            tree_rows(job, key, assembly, self._mark, self.desk.tally("stands")),
            drawing=drawing,
            card=self._card(position, points),
            main=main,
            quiet=(*quiet[:1], *other, *quiet[1:]),
            caution=" ".join(at_place(job, key)) if key else "",
            show=key,
        )

    def _position(self) -> Position | None:
        """The place in hand, else the first at which something can be done here."""
        job, scope = self.desk.job, scope_of(self.desk)
        chosen = job.positions.get(str(self.state.get("at", "")))
        if chosen is not None:
            return chosen
        to_do = next_step(scope, bench="assembly", gate=last_gate(scope.live)).to_do
        if to_do is None:
            return None
        return job.positions.get(to_do.about[1:] if is_position(to_do.about) else own_place(job, to_do.about))

    def _assembly(self, key: str) -> str:
        """The assembly whose drawing is shown: the one in hand, or the one that the place hangs beneath."""
        job = self.desk.job
        if key and job.children(key):
            return key
        return job.positions[key].parent if key in job.positions else ""

    def _is_here(self, point: Point, assembly: str) -> bool:
        if not assembly:
            return True
        job = self.desk.job
        key = point.position or (own_place(job, point.part) if point.part else "")
        return key == assembly or (key in job.positions and assembly in job.ancestors(key))

    def _mark(self, key: str, at: str) -> str:
        done, wanted = self.desk.tally("stands").counts.get(key, (0, 0))
        state = self.desk.stands(key) if not wanted else done == wanted
        if state is None or (wanted and not state):
            return ""
        return ACCEPT if state else TO_DO if key == at else EMPTY

    def _drawing(self, assembly: str, at: str) -> Drawing | None:
        file = drawing_of(self.desk, assembly) if assembly else ""
        if not file:
            return None
        job = self.desk.job
        name = job.bill.drawings.get(assembly, "")
        flags: dict[str, Flag] = {}
        for one in job.bill.callouts:
            if one.drawing != name:
                continue
            for key in self._keys_at(one.position, assembly):
                flags.setdefault(key, Flag(key, one.x, one.y, self._mark(key, at) or ACCEPT, key == at))
        filled = sum(flag.mark == ACCEPT for flag in flags.values())
        return Drawing(file, tuple(flags.values()), f"{filled} of {len(flags)} in place")

    def _keys_at(self, callout: str, assembly: str) -> list[str]:
        job = self.desk.job
        if callout in job.positions:
            return [callout]
        if assembly not in job.bill.positions:
            return []
        return [one.key for one in job.bill.nearest(assembly, callout) if one.key in job.positions]

    def _card(self, position: Position | None, points: list[Point]) -> Card:
        job, said = self.desk.job, self.state.get("said")
        at = position.key if position else ""
        first = sorted(points, key=lambda one: one.position != at)[:SHOWN_POINTS]
        open_here = tuple(Fact("open", f"{one.wrong} {one.clears}", EMPTY) for one in first)
        if said:
            return Card(str(said[0]), str(said[1]), str(said[2]), str(said[3]), open_here, self._photos(position))
        if position is None:
            return Card("Nothing now", "Nothing can go in now", UNSURE if points else ACCEPT, "", open_here)
        meant = self.desk.opened.live.meant(position.key)
        facts = []
        for part in meant:
            where = str(job.value(part, "place", "") or "place not said")
            facts.append(
                Fact("part", f"{self.desk.look.name(part)}, {where}", ACCEPT if is_released(job, part) else EMPTY)
            )
            facts += [Fact("lacks", lack.wrong, EMPTY) for lack in why_not_released(job, part)[:3]]
        line = position.line
        if line.kind == "hardware":
            facts += self._screws(position)
        if line.kind == "consumable":
            due = what_is_due(job, position)
            facts.append(Fact("renewal", due.lstrip(" :") or "done", EMPTY if due else ACCEPT))
        mark = self._mark(position.key, position.key)
        steps, word = self._small_steps(position), ""
        if self.desk.stands(position.key) is False and line.kind in ("part", "assembly"):
            word = "Scan the part for it" if meant else _without_part(job, position.key)
        return Card(position.key, line.description, mark, word, (*facts, *open_here), self._photos(position), steps)

    def _screws(self, position: Position) -> list[Fact]:
        job, joint = self.desk.job, position.line.joint
        facts = [Fact("screws", f"{put_in(job, position.key)} of {position.count} in")]
        if joint is None:
            return facts
        for name, said in (
            ("size", joint.size),
            ("class", joint.strength_class),
            ("order", joint.pattern),
            ("lubricant", joint.lubricant),
        ):
            if said:
                facts.append(Fact(name, said))
        if joint.torque_nm is not None:
            left = passes_left(job, position)
            torque = shown_torque(joint.torque_nm, self.desk.choice.units)
            facts.append(Fact("torque", f"{torque}; passes left: {', '.join(map(pass_says, left)) or 'none'}"))
        return facts

    def _photos(self, position: Position | None) -> tuple[str, ...]:
        """As found, beside it."""
        if position is None:
            return ()
        above = [f"@{one}" for one in self.desk.job.ancestors(position.key)]
        return photos_of(self.desk, f"@{position.key}", *came_from(self.desk.job, position.key), *above)

    def _small_steps(self, position: Position) -> tuple[Step, ...]:
        key, kind = position.key, position.line.kind
        if kind == "hardware":
            more = Step("Measured torque", "form_at", ("torque", key, "measured")) if has_torque(position) else None
            rests = any(one.kind == RESTS for one in against_torque(self.desk.job, position, self.desk.look.now))
            steps = [
                Step("Tighten it now", "form_at", ("torque", key)) if rests else None,
                Step("Screws: other", "form_at", ("move", key)),
                more,
                self._other_wrench(position),
                Step("Open the joint", "form_at", ("open joint", key)),
            ]
            return tuple(one for one in steps if one)
        if kind == "consumable":
            return (Step("Keep it", "form_at", ("keep", key)),) if rule_of(position) == ON_CONDITION else ()
        if kind == "temporary":
            return (Step("It is in", "temporary", (key, "in")), Step("It is out", "temporary", (key, "out")))
        inside = gone_along(self.desk.job, key)
        return (
            *((Step("It is in this one", "fit", (inside,)),) if inside else ()),
            Step("New part for it", "form_at", ("bring in", key)),
            Step("Photograph", "photograph", (key,)),
            Step("Part card", "part_card", (key,)),
            Step("In for a time", "add_temporary"),
        )

    def _other_wrench(self, position: Position) -> Step | None:
        """Where a wrench is asked for, another one than the last can be named."""
        joint, left = position.line.joint, passes_left(self.desk.job, position)
        if joint is None or not left or not asks_wrench(joint, left[0]) or not wrenches_now(self.desk.job.shop):
            return None
        return Step("With another wrench", "form_at", ("torque", position.key, "another wrench"))

    def _steps(
        self, position: Position | None, assembly: str, points: list[Point]
    ) -> tuple[Step | None, tuple[Step, ...]]:
        job = self.desk.job
        waiting = ready(self.desk.look, assembly) if assembly in job.positions else ready(self.desk.look)
        many = counted(len(waiting), "ready part")
        release = [Step(f"Release {many}", "release_ready", (assembly,))] if waiting else []
        skip = Step("Next place", "next")
        if self.state.get("said"):
            if self.state["said"][0] == "NO" and position is not None:
                whole = str(self.state.get("whole", ""))
                came = (Step("All inside came with it", "fit", (whole, ALL)),) if whole else ()
                return Step("See what it lacks", "part_card", (position.key,)), (*came, skip)
            return skip, tuple(release)
        if position is None:
            return (release[0] if release else Step("See what is open", "go", ("points",))), ()
        sign = [Step("Close up and sign", "sign", (assembly,))] if assembly and not points else []
        main = self._main(position, waiting)
        found = [one for one in (main, *release, *sign) if one] or [skip]
        return found[0], tuple(found[1:2]) or ((skip,) if found[0] is not skip else ())

    def _main(self, position: Position, waiting: Sequence[str]) -> Step | None:
        """The next step at this place; what is done elsewhere is gone to."""
        scope = scope_of(self.desk)
        to_do = next_step(scope, position_thing(position.key), gate=last_gate(scope.live)).to_do
        if to_do is None or (to_do.act == "part release" and to_do.about in waiting):
            return None
        if to_do.act == "part off":
            return Step("To the teardown bench", "go", ("teardown",))
        if to_do.act == "part fit":
            meant = scope.live.meant(to_do.about[1:]) if is_position(to_do.about) else [to_do.about]
            key = own_place(self.desk.job, meant[0])
            return Step(f"Fit {self.desk.job.positions[key].line.description} {key}", "fit", (meant[0],))
        if to_do.act not in BENCHES["assembly"]:
            return Step(f"See what it lacks: {position.line.description} {position.key}", "part_card", (position.key,))
        return plate(self.desk, to_do)

    # what is touched

    def choose(self, key: str) -> None:
        """A place is taken in hand."""
        self._take(at=key)

    def _take(self, **state: object) -> None:
        """Takes something else in hand; list or drawing stays."""
        self.state = {**({"list": True} if self.state.get("list") else {}), **state}

    def show_list(self) -> None:
        """The list in place of the drawing."""
        self.state["list"] = True

    def show_drawing(self) -> None:
        """The drawing in place of the list."""
        self.state.pop("list", None)

    def flag(self, key: str) -> None:
        self.choose(key)

    def next(self) -> None:
        """Goes on with the next place that can be filled."""
        self._take()

    def release_ready(self, assembly: str) -> None:
        """Releases all ready parts of the assembly."""
        self.desk.open("release ready", key=assembly)

    def sign(self, assembly: str) -> None:
        """Signs the assembly as closed up."""
        self.desk.open("sign", thing=f"@{assembly}")

    def form_at(self, form: str, key: str, how: str = "") -> None:
        """Opens a form for a place; a torque is `measured`, or set on `another wrench`."""
        self.state.pop("said", None)
        self.desk.open(form, key=key, **({how: True} if how else {}))

    def temporary(self, key: str, word: str) -> None:
        """Something is in, or out."""
        self.desk.open("temporary", key=key, word=word)

    def add_temporary(self) -> None:
        """Something that the bill does not know is put in for a time."""
        self.desk.open("added")

    def photograph(self, key: str) -> None:
        """A photograph of the place as it is now."""
        self.desk.go("photograph", things=[f"@{key}"], when="fitted", file=fresh_picture(self.desk), back=True)

    def part_card(self, key: str) -> None:
        """Opens the card of the part for this place."""
        inside = gone_along(self.desk.job, key)
        there = [inside] if inside else self.desk.opened.live.meant(key) or came_from(self.desk.job, key)
        if there:
            self.desk.go("part", part=there[0], back=True)
        else:
            self.desk.say(f"No part for {named(self.desk.job, key)} is known.", REJECT)

    def scanned(self, tag: Tag) -> bool:
        """A scanned part is fitted into its own place, if it may be: yes or no, large, with the reason."""
        found = parts_of_number(self.desk.job, tag.number)
        if not found:
            return False
        if place_of(self.desk.job, found[0]):
            self.desk.go("part", part=found[0], back=True)
            return True
        self.fit(found[0])
        return True

    def fit(self, part: str, came_with: str = "") -> None:
        """Fits a part into its own place (with `all` beneath it, as it came), and says yes or no."""
        name, key = self.desk.look.name(part), own_place(self.desk.job, part)
        came = [came_with] if came_with else []
        try:
            self.desk.act(lambda act: fit_parts(act, [part], came_with=came), f"{name} is fitted.")
        except Refused as refusal:
            said = ["NO", name, REJECT, f"{refusal.wrong} {refusal.instead}"]
            self._take(at=key, said=said, whole="" if came else self._whole(part))
            self.desk.say(f"NO: {refusal.wrong}", REJECT)
        else:
            self._take(at=key, said=["YES", name, ACCEPT, f"Fitted in {named(self.desk.job, key)}"])

    def _whole(self, part: str) -> str:
        """The part, where it may be fitted with all that came with it; else empty."""
        try:
            fit_parts(self.desk.look, [part], came_with=[ALL])
        except Refused:
            return ""
        return part


def _without_part(job: Job, key: str) -> str:
    if inside := gone_along(job, key):
        return f"{number_of(job, inside) or 'Its part'} was in the unit that is gone"
    return "Its part has not come off yet" if off_state(job, key) is False else "No part for it is known yet"
