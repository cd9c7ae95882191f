"""Sentences without commands, units of the person's system, settings that survive nonsense."""

from __future__ import annotations

import ast
import re
from decimal import Decimal
from pathlib import Path

import pytest

import teardown_app.workflows
from teardown_app.cli.main import COMMANDS
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.lacks.lack import LACKS
from teardown_app.domain.measure.units import factor
from teardown_app.ui.settings import Choice, Settings
from teardown_app.ui.units import offered_units, shown_limit, shown_torque


def refusals() -> list[list[ast.expr]]:
    """What every call of `refuse` in the workflows is given."""
    paths = sorted(Path(teardown_app.workflows.__file__).parent.glob("*.py"))
    nodes = [node for path in paths for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))]
    calls = [node for node in nodes if isinstance(node, ast.Call) and getattr(node.func, "id", "") == "refuse"]
    return [call.args for call in calls if len(call.args) > 1]


def sentences() -> list[str]:
    """Every text that is the second half of a refusal, and what clears each kind of lack."""
    texts = [row.clears for row in LACKS.values()]
    for args in refusals():
        parts = args[1].values if isinstance(args[1], ast.JoinedStr) else [args[1]]
        texts.append("".join(str(one.value) if isinstance(one, ast.Constant) else "10.20" for one in parts))
    return texts


@pytest.mark.parametrize("said", sentences())
def test_no_sentence_names_a_command(said: str) -> None:
    """Command words and options stay at the command line, which words them itself."""
    assert "--" not in said
    assert not re.search(r": (part|job|shop|hardware|joint|consumable|temporary|check|label|bill) [a-z]", said), said
    assert said.endswith((".", ")", "…")) or said == "10.20"


def test_the_act_that_helps_is_a_command() -> None:
    """What a refusal points at can be typed."""
    named = {args[2].value for args in refusals() if len(args) > 2 and isinstance(args[2], ast.Constant)}
    assert len(named) > 15
    assert named <= {" ".join(command.words) for command in COMMANDS}


def test_the_sentences_were_found() -> None:
    """The tests above look at something."""
    assert len(sentences()) > 80


@pytest.mark.parametrize(
    ("unit", "wanted", "times"),
    [
        ("in", "mm", "25.4"),
        ("uin", "um", "0.0254"),
        ("psi", "kPa", "6.894757293168"),
        ("bar", "kPa", "1E+2"),
        ("lbf in", "N m", "0.1129848290276167"),
        ("lb", "kg", "0.45359237"),
        ("oz", "g", "28.349523125"),
    ],
)
def test_inch_pound_units_are_those_of_the_table(unit: str, wanted: str, times: str) -> None:
    """NIST SP 811 (2008), appendix B.8; inch and pound are exact by definition."""
    assert factor(unit, wanted) == pytest.approx(Decimal(times))


def test_a_limit_is_shown_in_both_systems() -> None:
    """0.4 um is 15.75 uin (0.4 / 0.0254)."""
    limit = Limit("<= 0.4 um", max=Decimal("0.4"), unit="um")
    assert shown_limit(limit, "inch-pound") == "<= 0.4 um (≤ 15.75 uin)"
    assert shown_limit(limit, "SI") == "<= 0.4 um"
    assert offered_units("um", "inch-pound") == ("uin", "um")
    assert offered_units("um", "SI") == ("um", "uin")
    assert offered_units("Mohm", "inch-pound") == ("Mohm",)


def test_a_torque_is_shown_in_both_systems() -> None:
    """6 N m is 53.1 lbf in (NIST SP 811, table B.8)."""
    assert shown_torque(Decimal("6.0"), "inch-pound") == "6 N m (53.1 lbf in)"
    assert shown_torque(Decimal("6.0"), "SI") == "6 N m"


def test_settings_are_kept_for_a_person_and_for_who_comes_next() -> None:
    """What is not known is left as it was."""
    kept: list[dict[str, object]] = []
    settings = Settings({"people": {"MK": {"look": "purple"}}, "dots_per_inch": "many"}, kept.append)
    assert settings.of("MK") == Choice() and settings.dots_per_inch == 0
    settings.choose("MK", "units", "inch-pound")
    assert settings.of("MK").units == "inch-pound" and settings.of("TB").units == "inch-pound"
    settings.measure(149.04)
    assert settings.dots_per_inch == 149.0 and len(kept) == 2
