"""Who it is: initials, PIN, and a PIN chosen on this tablet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.records.pins import DIGITS
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text
from teardown_app.ui.view import PIN, Field
from teardown_app.workflows.act import refuse
from teardown_app.workflows.shop import enrol, give_rights

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


def _ask_who(desk: Desk, values: Values) -> Field | None:
    why = str(values.get("why") or "Who is it?")
    known = sorted(code for code, one in desk.workshop.shop.people().items() if not one.get("revoked"))
    if "code" not in values:
        if known:
            here = desk.session.people()
            return choose("code", why, sorted(known, key=lambda code: (code not in here, code)))
        return text("code", "Your initials, 2 to 6 letters: you are the first and have all rights", hint="No name.")
    code = str(values["code"]).upper()
    if not desk.session.pins.known(code):
        return first_open(
            values,
            Field("new", f"{code} has no PIN on this tablet. Choose one: {DIGITS} digits", PIN),
            Field("again", f"{code}: the same {DIGITS} digits again", PIN),
        )
    if _needs_pin(desk, values, code):
        return first_open(values, Field("pin", why if code in why else f"{code}: {why}", PIN))
    return None


def _needs_pin(desk: Desk, values: Values, code: str) -> bool:
    return values.get("weighty") is True or code not in desk.session.people()


def _finish_who(desk: Desk, values: Values) -> None:
    code, session = str(values["code"]).upper().strip(), desk.session
    if "new" in values:
        _enrol(desk, code, values)
        session.confirm(code, str(values["new"]))
    elif "pin" in values:
        session.confirm(code, str(values["pin"]))
    else:
        session.change_to(code)
    desk.entry = None
    desk.signed_on(code)


def _enrol(desk: Desk, code: str, values: Values) -> None:
    if values["new"] != values["again"]:
        values.pop("new")
        refuse("The two PINs are not the same.", "Choose one again.")
    workshop, first = desk.workshop, not desk.workshop.shop.people()
    if first:
        drafts = give_rights(workshop.shop_act(code), code, rights=())
        desk.session.pins.enrol(code, str(values["new"]))
        workshop.record(drafts, code)
        return
    act = workshop.shop_act(code)
    drafts = enrol(act, why="no PIN on this tablet")
    desk.session.pins.enrol(code, str(values["new"]))
    workshop.record(drafts, code)


FORMS = (Form("who", "", _ask_who, _finish_who),)
