"""Who it is: initials, PIN, and a PIN chosen on this tablet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.records.pins import DIGITS, fault_of
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text
from teardown_app.ui.view import PIN, Field
from teardown_app.workflows.act import refuse
from teardown_app.workflows.shop import enrol, give_rights, pin_chosen

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


def _ask_who(desk: Desk, values: Values) -> Field | None:
    why = str(values.get("why") or "Who is it?")
    known = sorted(code for code, one in desk.workshop.shop.people().items() if not one.revoked)
    if "code" not in values:
        if known:
            here = desk.session.people()
            return choose("code", why, sorted(known, key=lambda code: (code not in here, code)))
        return text("code", "Your initials, 2 to 6 letters: you are the first and have all rights", hint="No name.")
    code = str(values["code"]).upper()
    if not desk.session.pins.known(code):
        bad = fault_of(str(values["new"])) if "new" in values else ""
        if bad:
            return Field("new", f"{bad} Choose another: {DIGITS} digits", PIN)
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
    known = session.confirm if values.get("weighty") is True else session.sign_on
    if "new" in values:
        pin, again = str(values.pop("new")), str(values.pop("again"))
        _enrol(desk, code, pin, again)
        known(code, pin)
    elif "pin" in values:
        known(code, str(values["pin"]))
    else:
        session.change_to(code)
    desk.signed_on(code)


def _enrol(desk: Desk, code: str, pin: str, again: str) -> None:
    """The record comes first: a PIN that no office can see is worse than a record without one."""
    if pin != again:
        refuse("The two PINs are not the same.", "Choose one again.")
    workshop = desk.workshop
    act = workshop.shop_act(code)
    why = "no PIN on this tablet"
    first = [] if workshop.shop.people() else [*give_rights(act, code, rights=()), pin_chosen(act, why)]
    workshop.record(first or enrol(act, why=why), code)
    desk.session.pins.enrol(code, pin)


FORMS = (Form("who", "", _ask_who, _finish_who),)
