"""Asking: the form that is open, who it is, and what waits for that answer. No Kivy here.

One thing is asked at a time. Where nobody can be named for an act, it is asked who it is; the act waits,
and is done once that is known - in the same job only, and never after the person went elsewhere.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from attrs import evolve

from teardown_app.domain.tags.tag import Tag, as_typed
from teardown_app.domain.tags.tag_form import LENGTH
from teardown_app.figures.figure import Figure
from teardown_app.records.pins import PinFault
from teardown_app.records.trouble import RecordsError
from teardown_app.ui import not_issued
from teardown_app.ui.form import Entry, Form
from teardown_app.ui.known_here import looked_at
from teardown_app.ui.session import WhoIsIt
from teardown_app.ui.view import ACCEPT, REJECT, TAG, UNSURE, Field
from teardown_app.workflows.act import Refused

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

Doing = Callable[[], object]
WHO = "who"
"""The form that asks who it is; it is never kept, for a PIN is entered in it."""


class Asking:
    """What is asked at one desk."""

    def __init__(self, desk: Desk, forms: dict[str, Form]) -> None:
        self._desk = desk
        self.forms = forms
        self.entry: Entry | None = None
        self._beneath: Entry | None = None
        self._pending: Doing | None = None
        self._pending_job = ""

    @property
    def says(self) -> str:
        """What the open form is for, empty while none is."""
        return self.forms[self.entry.form].says if self.entry is not None else ""

    @property
    def to_keep(self) -> Entry | None:
        """The half-entered form: the one beneath, while it is asked who it is."""
        return self._beneath if self.entry is not None and self.entry.form == WHO else self.entry

    # one thing after the other

    def open(self, form: str, **values: Any) -> None:
        """Opens a form with what is known already; one that asks nothing is done at once."""
        self.wait_no_more()
        self.entry = Entry(form, values)
        self._advance()

    def resume(self, entry: Entry | None) -> None:
        """Opens a form as it was left."""
        self.wait_no_more()
        self.entry = entry

    def close(self) -> None:
        """Closes the form and gives up what waited; nothing is recorded."""
        self.resume(None)

    def field(self) -> Field | None:
        """What the open form asks now."""
        if self.entry is None:
            return None
        try:
            asked = self._asked(self.entry)
        except (LookupError, Refused):  # a form of another job, or of a place that is not there any more
            self.entry = None
            self._desk.say("What was half-entered does not belong here any more. Enter it again.", REJECT)
            return None
        entry = self.entry
        if asked is None or not entry.typed:
            return asked
        looked = entry.looked if entry.looked and entry.looked.text == entry.typed else None
        if looked is None:
            return evolve(asked, draft=entry.typed)
        return evolve(asked, draft=entry.typed, fault=looked.says, wrong=looked.places)

    def _asked(self, entry: Entry) -> Field | None:
        return not_issued.asks(self._desk, entry) or self.forms[entry.form].ask(self._desk, entry.values)

    @property
    def has_picture(self) -> bool:
        """True where the open form shows what is entered as a picture."""
        return self.entry is not None and self.forms[self.entry.form].picture is not None

    def picture(self) -> Figure | None:
        """A picture of what was entered so far, where the form has one."""
        asked, entry = self.field(), self.entry
        draw = self.forms[entry.form].picture if entry is not None else None
        return draw(self._desk, entry.values, asked.name, entry.typed) if draw and entry and asked else None

    def typed(self, text: str) -> bool:
        """Something stands on the pad that is not entered yet; true when that shows elsewhere too."""
        entry, asked = self.entry, self.field()
        if entry is None or asked is None:
            return False
        before, entry.typed, entry.looked = entry.looked, text, None
        if asked.kind == TAG and len(as_typed(text)) >= LENGTH:
            entry.looked = looked_at(self._desk, text)
        return self.has_picture or entry.looked is not before

    def entered(self, name: str, text: str) -> None:
        """A field was entered."""
        entry, asked = self.entry, self.field()
        if entry is None or asked is None or asked.name != name:
            return
        if not text.strip() and not asked.may_be_empty:
            self._desk.say("Nothing was entered.", REJECT)
            return
        looked = looked_at(self._desk, text) if asked.kind == TAG and text.strip() else None
        if looked is not None:  # it stays on the pad, and is put right there
            entry.typed, entry.looked = text, looked
            self._desk.say(looked.says, REJECT)
            return
        self._keep(entry, name, text)

    def _keep(self, entry: Entry, name: str, text: str) -> None:
        """What was entered is kept, and the next thing is asked."""
        entry.values[name] = text
        entry.order.append(name)
        entry.typed, entry.looked = "", None
        if name == not_issued.AGREED and text != not_issued.YES:
            self._other_label(entry)
        else:
            self._advance()

    def _other_label(self, entry: Entry) -> None:
        """The label was not to be put on: another one is asked for, or nothing where the scan came first."""
        if not not_issued.taken_away(entry):
            self.leave()
        self._desk.say("Not put on. Take a label that was issued here.", UNSURE)

    def scanned(self, tag: Tag) -> bool:
        """True when the open form asks for such a number, or offers what bears it: the scan is the answer."""
        asked = self.field()
        offered = next((one for one in asked.choices if one.partition(" ")[0] == tag.number), "") if asked else ""
        if asked is not None and offered:
            self.entered(asked.name, offered)
            return True
        if asked is None or asked.kind != TAG or (asked.wants != tag.letter and tag.letter == "W"):
            return False
        self.entered(asked.name, tag.number)
        return True

    def ask_again(self, band: int) -> None:
        """The field that a touched band of the picture shows is asked again; the others stay entered."""
        entry = self.entry
        shown_by = self.forms[entry.form].shown_by if entry is not None else None
        name = shown_by(self._desk, entry.values, band) if entry is not None and shown_by else ""
        if entry is not None and name in entry.order:
            entry.order.remove(name)
            entry.typed = str(entry.values.pop(name))

    @property
    def can_go_back(self) -> bool:
        """True once something was entered: there is a question before."""
        return self.entry is not None and bool(self.entry.order)

    def one_back(self) -> None:
        """Goes back to the field before, and out of the form from the first."""
        entry = self.entry
        if entry is None or not entry.order:
            self.leave()
            return
        name = entry.order.pop()
        entry.typed = str(entry.values.pop(name, ""))

    def leave(self) -> None:
        """Leaves a form; nothing is recorded. From the question who it is, back to what was being entered."""
        beneath = self._beneath
        self.resume(beneath)
        if beneath is not None and self.field() is None:  # all was entered already: the last thing is asked again
            last = beneath.order.pop() if beneath.order else ""
            self.entry = beneath if last and beneath.values.pop(last, None) is not None else None

    def _advance(self) -> None:
        entry = self.entry
        if entry is not None and self.field() is None:
            self.attempt(lambda: self._finish(entry))

    def _finish(self, entry: Entry) -> None:
        try:
            self.forms[entry.form].finish(self._desk, entry.values)
        except (Refused, PinFault, RecordsError):
            if entry.order:
                entry.values.pop(entry.order.pop(), None)
            elif self.entry is entry:
                self.entry = None
            raise
        if self.entry is entry:
            self.entry = None

    # who it is

    def attempt(self, doing: Doing) -> None:
        """Does something; a refusal is shown, and where nobody can be named for it, it asks who first."""
        try:
            doing()
        except Refused as refusal:
            self._desk.say(f"{refusal.wrong} {refusal.instead}".strip(), REJECT)
        except (RecordsError, PinFault) as trouble:
            self._desk.say(str(trouble), REJECT)
        except WhoIsIt as asked:
            self._pending, self._beneath, self._pending_job = doing, self.entry, self._desk.job_number
            known = {"code": asked.code, "weighty": True} if asked.code else {}
            self.entry = Entry(WHO, {"why": asked.why, **known})

    def who(self) -> None:
        """Asks who is at the tablet."""
        beneath = self.to_keep
        self.wait_no_more()
        self._beneath = beneath
        self.entry = Entry(WHO, {"why": "Who is at the tablet?"})

    def known_now(self, code: str) -> None:
        """Somebody said who they are: what waited for that goes on."""
        self._desk.say(f"{code} is at the tablet.", ACCEPT)
        pending, beneath, job = self._pending, self._beneath, self._pending_job
        self.resume(beneath)
        if pending is not None and job == self._desk.job_number:
            self.attempt(pending)
        if self._pending is None:
            self._desk.session.done()  # a PIN counts for what it was asked for, also when that was refused

    def wait_no_more(self) -> None:
        """What waited for a name is given up."""
        self._pending, self._beneath, self._pending_job = None, None, ""
