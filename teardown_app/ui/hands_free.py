"""Action codes of the wall sheet in the cleaning room: each does what a touch of a button would do.

yes and no answer an open question, or touch the large button and leave what is begun; start, out and pause work on
what is in the basket; next goes down the list. Elsewhere than in the cleaning room they do nothing.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.tags.actions import action_of
from teardown_app.domain.tags.tag import Tag
from teardown_app.ui.view import CHOICE, PIN, Step
from teardown_app.workflows.act import refuse

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

ROOM = "cleaning"
FORM_OF = {"start": "operation start", "out": "operation done"}
PAUSED = "paused at the bath"
TAKEN = "taken by code"
"""What a code took into an empty basket: it goes out again when its question is left."""


def hands_free(desk: Desk, tag: Tag) -> None:
    """Does what an action code means here, or says why it means nothing."""
    word = action_of(tag)
    if not word:
        refuse(f"{tag.number} is no action of the wall sheet.", "Print the sheet anew in the office: labels.")
    if desk.screen.name != ROOM:
        refuse(f"“{word}” is for the cleaning room.", "Open the cleaning room, then scan it again.")
    if word == "no":
        _no(desk)
    elif desk.asking.entry is not None:
        _answer(desk, word)
    elif word == "yes":
        if desk.slow.says:
            refuse("Something goes on still.", "Wait until it is through; “no” stops it.")
        _touch(desk, desk.view().main, "Nothing is to be done next.")
    elif word == "next":
        desk.screen.next_operation()  # type: ignore[attr-defined]
    elif word == "pause":
        _pause(desk)
    else:
        _touch(desk, _step_for(desk, FORM_OF[word]), WHY_NOT[word])


WHY_NOT = {
    "start": "Nothing can be begun: what is in the basket is begun already.",
    "out": "Nothing can come out.",
}


def _answer(desk: Desk, word: str) -> None:
    """yes takes what stands on the pad, or goes on where nothing needs to be entered."""
    asked = desk.asking.field()
    if word != "yes" or asked is None:
        refuse("Something is asked.", "Answer it, or scan “no” to leave it.")
    if asked.kind == PIN or asked.kind == CHOICE or not (asked.draft or asked.may_be_empty):
        refuse(f"“yes” is no answer to: {asked.asks}", "Touch the answer, or scan “no” to leave it.")
    desk.asking.entered(asked.name, asked.draft)


def _no(desk: Desk) -> None:
    """Leaves the question, and what a code took for it goes out again; stops slow work; or empties the basket."""
    if desk.slow.says:
        desk.stop_slow()
    elif desk.asking.entry is not None:
        desk.leave_form()
        if desk.screen.state.pop(TAKEN, None) == desk.screen.basket():  # type: ignore[attr-defined]
            desk.screen.empty()  # type: ignore[attr-defined]
    else:
        desk.screen.empty()  # type: ignore[attr-defined]
        desk.say("The basket is empty.")


def _step_for(desk: Desk, form: str) -> Step | None:
    """The button that works on the basket with this form; an empty basket is filled with all that stand here."""
    view = desk.view()
    if view.main and view.main.act == "take_all":
        desk.screen.take_all()  # type: ignore[attr-defined]
        desk.screen.state[TAKEN] = desk.screen.basket()  # type: ignore[attr-defined]
        view = desk.view()
    steps = [one for one in (view.main, *view.quiet) if one]
    return next((one for one in steps if one.act == "work" and form in one.args), None)


def _touch(desk: Desk, step: Step | None, why_not: str) -> None:
    """As a finger would; what it asks is asked, what it refuses is said."""
    if step is None:
        refuse(why_not, "Scan the parts of a basket first.")
    owner = desk.screen if hasattr(type(desk.screen), step.act) else desk
    getattr(owner, step.act)(*step.args)


def _pause(desk: Desk) -> None:
    """Stops what is begun on the basket, with its reason."""
    step = _step_for(desk, "operation stop")
    if step is None:
        refuse("Nothing in the basket is begun.", "Scan “start” first.")
    desk.open("operation stop", parts=desk.screen.basket(), why=PAUSED)  # type: ignore[attr-defined]
