"""What the camera sees, at the desk: on and off, which camera, and what becomes of the labels that were read.

Only the label that is aimed at does something (`aiming.py`), once a visit (`visits.py`): of ours it is a scan. Where
two are as near the mark as each other it is asked which; several in view can be taken as a tray. A code that is not
ours is said to be foreign and can be noted on the part in hand. A number that was only found likely is asked about.
Nothing is read while a question is open that a label does not answer, so that a tag on the table throws no entry
away. No Kivy here.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from teardown_app.domain.ledger.record import Record
from teardown_app.domain.tags.tag import is_ours, issue
from teardown_app.ui import foreign
from teardown_app.ui.aiming import WITHIN_S, Aim, is_on_mark, nearer_unread
from teardown_app.ui.asking import WHO
from teardown_app.ui.black_box import BlackBox
from teardown_app.ui.camera import BACK, FAILED, FRONT, KEPT_OFF, ON, OPENING, SAYS, Camera, Frame
from teardown_app.ui.captures import opening_of
from teardown_app.ui.frames import FolderFrames, FrameSource, labels_in
from teardown_app.ui.label_reader import Label, LabelReader, Seen, in_rows
from teardown_app.ui.looking import Looking
from teardown_app.ui.scanning import is_tag, meaning
from teardown_app.ui.view import REJECT, TAG, UNSURE, Live, Step
from teardown_app.ui.visits import GONE_S, Visits
from teardown_app.workflows.act import refuse

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

TRAY = "tray"
LIKELY = "likely "
ACTION, PART = "A", "P"
"""What numbers of action codes and of parts begin with."""
END_S = 1.5
CLOSER = "Hold the camera closer, or type the number."


def odds(chance: float) -> str:
    """A small chance in words.

    >>> odds(2.4e-4), odds(3e-13)
    ('1 in 4,166', '< 1 in 1,000,000,000')
    """
    return f"1 in {int(1 / chance):,}" if chance > 1e-9 else "< 1 in 1,000,000,000"


def _called(label: Label) -> str:
    """Under what a label is in view: one that was only found likely is another one than the same number read."""
    return f"{LIKELY}{label.text}" if label.offered else label.text


def is_part(name: str) -> bool:
    """True for what is called like a part's label, also one that was only found likely."""
    text = name.removeprefix(LIKELY)
    return is_ours(text) and text.startswith(PART)


class Watching:
    """The camera and the label readers of one desk."""

    def __init__(self, desk: Desk, home: Path) -> None:
        self._desk, folder = desk, home / "private"
        self.frames: FrameSource = FolderFrames(home / "scans")
        self.reader = LabelReader(BlackBox(folder))
        self.camera = Camera(opening_of(None))
        self.looking = Looking(self.camera, self.reader, folder / "trays")
        self.aim, self.visits = Aim(), Visits()
        self.kept_off = False
        """True after reading pictures stopped the app several times."""
        self._light, self._shown = False, ""
        self._several: Seen | None = None
        self._refused: set[str] = set()
        self._of_tray: frozenset[str] = frozenset()
        self.forget_questions()
        desk.workshop.listeners.append(self._took)

    def _took(self, record: Record, _opened: object) -> None:
        """Numbers became known: a roll was issued, or something here got a number."""
        if record.typ == "numbers.issued":
            body = record.body
            self.reader.know(issue(body["letter"], body["letters"], body["first"], body["count"])[0])
        number = str(record.body.get("number", ""))
        if is_ours(number):
            self.reader.know((number,))

    # what is touched

    def switch_camera(self) -> None:
        """On, or off."""
        if self.kept_off:
            refuse(SAYS[KEPT_OFF], "Scan with a scanner, or type the number.")
        if self.camera.is_on:
            self.off()
        else:
            self._on(self._desk.settings.camera_side)

    def _on(self, side: str) -> None:
        self._light = False
        self.aim.forget()
        self.visits.forget()
        self.reader.know(self._desk.workshop.known_numbers())
        self.camera.start(side)
        self.looking.start()

    def off(self) -> None:
        """Lets go of the camera, and forgets what was asked about its pictures."""
        self.looking.stop()
        self.camera.stop()
        self.forget_questions()
        self._refused.clear()
        self._several = None

    def close(self) -> None:
        """Leaves no camera and no thread behind; one that hangs in the camera's driver is not waited for."""
        self.off()
        for thread in (self.camera.thread, self.looking.thread):
            if thread is not None:
                thread.join(END_S)
        self.reader.box.close()

    def other_camera(self) -> None:
        """The camera of the other side."""
        side = FRONT if self.camera.side == BACK else BACK
        self._desk.settings.use_camera(side)
        self._on(side)

    def switch_light(self) -> None:
        """The camera's light on or off."""
        if not self.camera.torch(not self._light):
            refuse("This camera has no light.", "Hold a lamp beside the label.")
        self._light = not self._light

    def it_says_so(self, text: str) -> None:
        """The printed number was compared and is the one that was found likely."""
        self._likely = ""
        meaning(self._desk, text)

    def it_says_something_else(self, text: str) -> None:
        """It is not; it is not asked again while the camera is on."""
        self._refused.add(text)
        self._likely = ""
        self._desk.say("Not taken. Type the number as it is printed.", UNSURE)

    def it_is(self, text: str) -> None:
        """Of several labels this one is meant."""
        label = next((one for one in self._which if one.text == text), None)
        self.forget_questions()
        if label is not None:
            self._scanned(label)

    def it_is_none(self) -> None:
        """None of these is meant."""
        self.forget_questions()

    def as_tray(self) -> None:
        """All labels in the picture are taken together."""
        if self._several is not None:
            self._tray(self._several)

    def link(self, text: str, part: str) -> None:
        """The foreign code is noted on the part that was in hand."""
        foreign.link(self._desk, part, text)
        self.forget_questions()

    def do_not_link(self) -> None:
        """It stays foreign."""
        self.forget_questions()

    def forget_questions(self) -> None:
        """What was asked about a label is asked no more."""
        self._likely = ""
        self._foreign = ("", "")
        self._which: tuple[Label, ...] = ()

    # what was read

    def read(self, text: str) -> None:
        """A text from a scanner, the camera or the keyboard: what it means here; a foreign one is looked up."""
        self.forget_questions()
        desk = self._desk
        if not is_tag(text):
            if foreign.stands_for(desk, text):
                return
            part = desk.screen.in_hand() if desk.job_number and desk.asking.entry is None else ""
            if part and foreign.clean(text) and not foreign.is_slip(text):
                self._foreign = (text, part)
        meaning(desk, text)

    def read_picture(self, seen: Seen) -> None:
        """A picture that somebody put there: what stands in it."""
        likely = [one for one in seen.labels if one.ours and one.offered]
        others = [one.text for one in seen.labels if not one.ours]
        if len(seen.ours) > 1:
            self._tray(seen)
        elif seen.ours and nearer_unread(seen, seen.ours[0]):
            self._ask_which(seen.ours, "A label nearer the middle could not be read.")
        elif seen.ours:
            self._scanned(seen.ours[0])
        elif likely:
            self._ask(likely[0])
        elif others:
            self.read(others[0])
        else:
            refuse("No number of ours is in the picture.", CLOSER)

    def look_for_pictures(self) -> None:
        """A picture that somebody put into the folder is read off the screen's thread."""
        path = self.frames.newest()
        if path is not None:
            slow = self._desk.slow
            self.reader.know(self._desk.workshop.known_numbers())
            slow.start("Reading the picture:", lambda report: labels_in(path, self.reader, report), self.read_picture)

    def tick(self) -> bool:
        """Takes what was read since; true when something is to be shown anew. After ten untouched minutes it is off."""
        if self.camera.is_on and self._desk.session.idle:
            self.off()
        for seen in self.looking.take():
            self._take(seen)
        shown = f"{self.state} {self.camera.has_torch} {self._in_view()}"
        changed, self._shown = shown != self._shown, shown
        return changed

    def _take(self, seen: Seen) -> None:
        """Only what is aimed at counts, once a visit; those of a tray that lies there do not."""
        self.visits.gone_s, self.aim.within_s = (max(one, self.looking.round_s) for one in (GONE_S, WITHIN_S))
        self.visits.see(_called(one) for one in seen.labels)
        if not self.visits.has(self._of_tray):
            self._of_tray = frozenset()
        self._keep_several(seen)
        aimed = tuple(one for one in self.aim.look(seen) if self._may_act(one, seen))
        if self._is_better(seen):
            self._desk.did(lambda: self._tray(seen))
        elif aimed:
            self._take_aimed(tuple(one for one in aimed if one.ours) or aimed[:1])

    def _may_act(self, label: Label, seen: Seen) -> bool:
        """Not one of the tray that lies there, nor a number that somebody said it is not; an action code has to be on
        the mark, with no part's label in view."""
        if label.text in self._of_tray or (label.offered and label.text in self._refused):
            return False
        if not (label.ours and label.text.startswith(ACTION)):
            return True
        return is_on_mark(label, seen) and not any(is_part(name) for name in self.visits.seen_lately())

    def _take_aimed(self, labels: tuple[Label, ...]) -> None:
        """One, or several that it has to be asked about; what is asked stays asked: nobody's finger is on another."""
        name = " or ".join(sorted(map(_called, labels)))
        sure = len(labels) == 1 and labels[0].ours and not labels[0].offered
        if not self.visits.counts(name) or (self._is_asking and not sure):
            return
        before = self._desk.said.count
        if self._is_listened_to(labels):
            self._desk.did(lambda: self._act(labels))
        said = self._desk.said
        self.visits.done(name, refused=said.mark == REJECT and said.count != before)

    def _act(self, labels: tuple[Label, ...]) -> None:
        (label, *others) = labels
        if others:
            self._ask_which(labels, "Two labels are as near the mark as each other.")
        elif label.ours:
            self._scanned(label)
        else:
            self.read(label.text)

    @property
    def _is_asking(self) -> bool:
        """Something is asked about a label."""
        return bool(self._likely or self._which)

    def _keep_several(self, seen: Seen) -> None:
        """The best picture with several labels of ours, while they are in view."""
        kept = self._several
        if kept is not None and not self.visits.has(one.text for one in kept.ours):
            kept = None
        better = len(seen.ours) > 1 and (kept is None or len(seen.labels) >= len(kept.labels))
        self._several = seen if better else kept

    def _in_view(self) -> int:
        """How many labels of ours could be taken as a tray."""
        desk = self._desk
        if self._several is None or not desk.job_number or desk.asking.entry is not None:
            return 0
        return len(self._several.ours)

    def _is_better(self, seen: Seen) -> bool:
        """True for a picture of the open tray with more on it."""
        desk = self._desk
        is_open = desk.screen.name == TRAY and desk.asking.entry is None
        return is_open and len(seen.ours) > 1 and len(seen.labels) > len(desk.screen.state.get("labels", []))

    def _is_listened_to(self, labels: tuple[Label, ...]) -> bool:
        """False while something is asked that a label does not answer; a badge answers who it is."""
        asked = self._desk.asking.field()
        if asked is None or asked.kind == TAG:
            return True
        entry = self._desk.asking.entry
        return entry is not None and entry.form == WHO and any(one.ours and one.text.startswith("W") for one in labels)

    def _scanned(self, label: Label) -> None:
        """One label of ours; of one that no reader could read it is said how sure the number is, or it is asked."""
        if label.offered:
            self._ask(label)
        elif label.chance:
            says = f"{label.text} recognised (wrong: {odds(label.chance)})."
            self._desk.say_with(says, lambda: self.read(label.text))
        else:
            self.read(label.text)

    def _ask(self, label: Label) -> None:
        self._likely = label.text
        how = f" (wrong: {odds(label.chance)})" if label.chance else ""
        self._desk.say(f"Compare the printed number{how}.", UNSURE)

    def _ask_which(self, labels: tuple[Label, ...], why: str) -> None:
        self._which = tuple(in_rows(list(labels)))
        self._desk.say(f"{why} Say which is meant, or bring it onto the mark.", UNSURE)

    def _tray(self, seen: Seen) -> None:
        """Several labels in one picture."""
        desk = self._desk
        if desk.asking.entry is not None:
            refuse(f"{len(seen.ours)} labels are in the picture, one is asked for.", "Show that one alone.")
        if not desk.job_number:
            refuse("Choose a job first.", "Then show the labels again.")
        self._of_tray |= {one.text for one in seen.labels}
        note = [one.as_note() for one in seen.labels]
        if desk.screen.name == TRAY:
            desk.screen.state.update(labels=note, file=seen.file)
            desk.say(f"{len(note)} labels in the picture.")
        else:
            at = desk.screen
            desk.go(TRAY, back=True, labels=note, file=seen.file, came=at.name, before=dict(at.state))
            desk.say(f"{len(seen.ours)} labels of ours in the picture.")

    # what is shown

    def frame(self) -> Frame | None:
        """The newest picture of the camera."""
        return self.camera.newest()

    def outlines(self) -> Seen | None:
        """What was read last."""
        return self.looking.newest

    def plate(self) -> Step:
        """The plate beside the scan line."""
        return Step("Camera", "switch_camera", chosen=self.camera.is_on)

    @property
    def state(self) -> str:
        """How the camera stands; it has failed too when nothing reads its pictures any more."""
        reading = self.looking.thread
        dead = self.camera.is_on and reading is not None and not reading.is_alive()
        return FAILED if dead else self.camera.state

    def live(self) -> Live | None:
        """The camera's pane; none while the camera is off and nothing is asked."""
        camera, state = self.camera, self.state
        pictured = camera.is_on and state == ON
        side = (Step("Other camera", "other_camera"),) if camera.is_on else ()
        if camera.is_on and camera.has_torch:
            side = (*side, Step("Light", "switch_light", chosen=self._light))
        mirrored = camera.side == FRONT
        question = self._question()
        if question is not None:
            says, steps = question
            return Live(says, pictured, mirrored, UNSURE, steps)
        if not camera.is_on or self._desk.screen.name == TRAY:
            return None
        if pictured:
            side = (*self.tray_steps(), *side)
            which = "Front camera" if mirrored else "Back camera"
            return Live(f"{which}. {SAYS[ON]}", True, mirrored, "", side)
        mark = "" if state == OPENING else REJECT
        return Live(SAYS[state], False, mirrored, mark, (*side[:1], Step("Type the number", "search")))

    def tray_steps(self) -> tuple[Step, ...]:
        """The plate that takes all labels in view together, where there are several."""
        many = self._in_view()
        return (Step(f"All {many} as a tray", "as_tray"),) if many else ()

    def _question(self) -> tuple[str, tuple[Step, ...]] | None:
        """What is asked about a label, and the answers."""
        if self._likely:
            says = f"Does the label say {self._likely}?"
            yes = Step("Yes, it does", "it_says_so", (self._likely,))
            return says, (yes, Step("No", "it_says_something_else", (self._likely,)))
        if self._which:
            steps = tuple(Step(one.text, "it_is", (one.text,)) for one in self._which)
            return "Which label is meant?", (*steps, Step("None", "it_is_none"))
        text, part = self._foreign
        return self._about_foreign(text, part) if text and part else None

    def _about_foreign(self, text: str, part: str) -> tuple[str, tuple[Step, ...]]:
        says = f"Foreign code “{foreign.clean(text)[:24]}”. Note it on {self._desk.look.name(part)[:34]}?"
        return says, (Step("Note it", "link", (text, part)), Step("No", "do_not_link"))
