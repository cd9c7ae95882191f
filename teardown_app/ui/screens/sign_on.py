"""Sign on: who is at the tablet."""

from __future__ import annotations

from teardown_app.ui.screen import Screen
from teardown_app.ui.view import ACCEPT, Card, Step, View


class SignOn(Screen):
    """People of the shop as plates; a touch asks the PIN, a badge does without it during the shift."""

    name = "sign on"
    of_job = False

    def view(self) -> View:
        people, here = self.desk.workshop.shop.people(), self.desk.session.people()
        plates = tuple(
            Step(code, "sign_on", (code,), mark=ACCEPT if code in here else "")
            for code, one in sorted(people.items())
            if not one.revoked
        )
        head = "Touch your initials, or scan your badge"
        main = None
        if not plates:
            head = "Nobody is registered in this shop yet. The first person gets all rights."
            main = Step("Register the first person", "who")
        empty = "The PIN once a shift; then two touches or a badge change the person. It stays on this tablet."
        return View("Sign on", empty=empty, card=Card("Who is it?", head, steps=plates), main=main)

    def sign_on(self, code: str) -> None:
        """Asks the PIN of a person, or lets them on who have signed on this shift."""
        self.desk.open("who", why="your PIN", code=code)
