"""When work was begun that nobody recorded: asked at the cleaning bench, answered with a glove."""

from __future__ import annotations

from teardown_app.domain.parts.routing import Moment
from teardown_app.ui.parts.pad import LETTERS
from teardown_app.workflows.began import offered_beginnings, when_begun

NOON = Moment("t1~0", "2026-03-14T12:00:00+01:00", "ok")
KEYS = {key for row in LETTERS for key in row} | {" "}


def test_a_time_and_a_day_can_be_typed_on_the_pad() -> None:
    """The pad has no colon: what the question and its refusal show as an example is typed without one."""
    for said in ("10.30", "2026-03-13 22.15"):
        assert set(said) <= KEYS
        assert when_begun(said, NOON).endswith(f"{said[-5:].replace('.', ':')}:00+01:00")


def test_what_is_offered_is_understood_and_past() -> None:
    offered = offered_beginnings(NOON)
    assert offered and all(when_begun(one, NOON) < NOON.wall for one in offered)


def test_a_clock_that_is_not_right_offers_nothing() -> None:
    assert offered_beginnings(NOON._replace(clk="unset")) == ()
