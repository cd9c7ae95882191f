"""From which pH and which temperature a bath harms: inside, at both ends and outside, also where a range is given.

`bill.md`, 8: `above_ph` "a medium that gives no pH counts as above, of a range the upper end counts". The limits 12
and 60 are handed in here and stand for no bath.
"""

from __future__ import annotations

import pytest

from teardown_app.domain.bill.materials import Family, Harm, Materials
from teardown_app.domain.bill.route import Operation

LYE = Harm(("aluminium",), medium=("alkaline",), above_ph=12, why="it dissolves")
HOT_WATER = Harm(("aluminium",), medium=("water", "wasser"), above_c=60, why="it strips")
MATERIALS = Materials({"aluminium": Family("aluminium", materials=("6061",))}, (LYE, HOT_WATER))


def harms(medium: str, temperature: str = "") -> bool:
    """Whether a bath is said to harm a part of aluminium."""
    operation = Operation("clean", medium=medium, temperature=temperature)
    said = MATERIALS.harm(operation, "6061")
    why = "it strips" if "wa" in medium.casefold() else "it dissolves"
    assert said in ("", f"operation clean ({medium}) harms aluminium: {why}")
    return bool(said)


@pytest.mark.parametrize(
    ("ph", "harmful"),
    [
        # one number
        ("pH 7", False),
        ("pH 11.9", False),
        ("pH 12", False),
        ("pH 12.1", True),
        ("pH 12,1", True),
        ("pH 13", True),
        ("pH=13", True),
        ("PH 13", True),
        # a range: from 7 to 13 it may be 13
        ("pH 7-13", True),
        ("pH 7 - 13", True),
        ("pH 7–13", True),
        ("pH 7 to 13", True),
        ("pH 7 bis 13", True),
        ("pH 13-7", True),
        ("pH 12-12.5", True),
        ("pH 12,5-13,5", True),
        ("pH 7-12", False),
        ("pH 7-11", False),
        ("pH 12-7", False),
        ("pH 11,5-12,0", False),
        # nothing said
        ("", True),
        ("12 %", True),
    ],
)
def test_of_a_range_of_ph_the_upper_end_decides(ph: str, harmful: bool) -> None:
    """Above 12, not at 12."""
    assert harms(f"alkaline cleaner {ph}".strip()) is harmful


@pytest.mark.parametrize(
    ("temperature", "harmful"),
    [
        ("59.9 °C", False),
        ("60 °C", True),
        ("60", True),
        ("59", False),
        ("20-59 °C", False),
        ("20-60 °C", True),
        ("20 to 60 °C", True),
        ("80-20 °C", True),
        ("139 °F", False),  # 59.4 °C
        ("141 °F", True),  # 60.6 °C
        ("100-141 °F", True),
        ("", False),
    ],
)
def test_of_a_range_of_temperature_the_upper_end_decides(temperature: str, harmful: bool) -> None:
    """From 60 degrees Celsius on; Fahrenheit less 32, divided by 1.8 (exact by definition)."""
    assert harms("DI water", temperature) is harmful


@pytest.mark.parametrize(
    "medium", ["hot DI water", "DI water 60 °C", "DI water 20-60 °C", "heißes Wasser", "heisses Wasser"]
)
def test_a_medium_may_say_itself_that_it_is_hot(medium: str) -> None:
    """In words or as a temperature."""
    assert harms(medium)


def test_a_medium_that_is_not_the_rule_s_is_let_be() -> None:
    """Whatever its pH."""
    assert not harms("citric acid pH 13")
