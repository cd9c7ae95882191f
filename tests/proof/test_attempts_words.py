"""Attempts on sentences and on words over several places: what a list shows of them, and who agreed to what.

Each story says what a shop would have suffered."""

from __future__ import annotations

from teardown_app.domain.job.replay import replay
from teardown_app.domain.points.live import all_points
from tests.open_points.story import line
from tests.open_points.tablets import JOB, SHOP
from tests.proof.implementations import App
from tests.proof.tale import Tale, screws

# -- sentences: the app's alone ------------------------------------------------------------------------


def sentences(tale: Tale) -> dict[str, str]:
    """Key of each point that is to be accepted -> what it says."""
    found = all_points(replay(tale.records(SHOP), JOB, tale.records(JOB), tale.bills))
    return {one.key.split("|")[1]: one.wrong for one in found if one.kind == "to be accepted"}


def test_nobody_puts_words_into_anothers_mouth() -> None:
    """The foreman would have read his own name under it, and accepted it."""
    tale = Tale(App(), line("10"), screws("20", 4))
    tale.word("10", "not on this tool", act="OO")
    tale.say("hardware.counted", "@20", by="RR", found=3)
    tale.say("hardware.moved", "@20", by="RR", lost=1, search="tray", missed="0 lost")
    assert sentences(tale) == {
        "10": "10: RR says not on this tool. Not accepted.",
        "20": "20: 1 lost (search: tray). Not accepted.",
    }
