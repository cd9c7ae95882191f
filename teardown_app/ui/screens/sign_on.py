"""Sign on: who is at the tablet."""

from __future__ import annotations

from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, EMPTY, Card, Fact, Row, Step, View


class SignOn(Screen):
    """People of the shop; a touch asks the PIN, a badge does without it during the shift."""

    name = "sign on"
    of_job = False

    def view(self) -> View:
        people, here = self.desk.workshop.shop.people(), self.desk.session.people()
        rows = tuple(
            Row(code, code, "signed on" if code in here else "", ACCEPT if code in here else EMPTY)
            for code, one in sorted(people.items())
            if not one.get("revoked")
        )
        first = Step("Register the first person", "who") if not rows else Step("Sign on", "who")
        facts = (
            Fact("shift", "once with the PIN, then two touches or a badge change the person"),
            Fact("PIN", "stays on this tablet; six digits"),
        )
        card = Card(far="Who is it?", head="Touch your initials, or scan your badge", facts=facts)
        empty = "Nobody is registered in this shop yet. The first person gets all rights."
        return View("Sign on", rows, empty, card=card, main=first)

    def choose(self, key: str) -> None:
        self.desk.open("who", why="your PIN", code=key)
