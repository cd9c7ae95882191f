"""Shown = judged: typed decimals on their limit lie on it, and no value is shown as its limit that is not on it."""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from teardown_app.cli.measure import as_lines
from teardown_app.domain.bill.check import Check
from teardown_app.domain.bill.limit import Limit
from teardown_app.domain.measure.digits import shortened, told_apart
from teardown_app.domain.measure.judging import Reading, judge
from teardown_app.domain.measure.measuring import measure
from teardown_app.figures.margin import margin
from teardown_app.metrology.kinds import all_kinds

KINDS = all_kinds()
DIAMETERS = [(base, Decimal(n) / 1000) for base in ("8.005", "25", "52.1", "80.02", "120", "340.1", "499.99", "12.7")
             for n in range(1, 71)]  # fmt: skip
"""560 of them; largest less smallest is exactly n / 1000, by arithmetic."""


def test_every_diameter_on_its_limit_is_on_it_and_one_step_beyond_is_not() -> None:
    wrong = []
    for base, off in DIAMETERS:
        low = Decimal(base)
        for beyond, wanted in ((Decimal(0), "accept"), (Decimal("0.0001"), "reject")):
            given = {"diameters": [float(low), float(low + off + beyond)], "limit_max": float(off)}
            if measure(KINDS["diameters"], given).verdict != wanted:
                wrong.append((base, off, beyond))
    assert not wrong


@given(st.decimals(-1000, 1000, places=6), st.decimals(-1000, 1000, places=6), st.integers(1, 12))
def test_a_number_is_never_shown_on_the_other_side_of_its_limit(value: Decimal, end: Decimal, digits: int) -> None:
    assert Decimal(told_apart(value, [end], digits)).compare(end) == value.compare(end)


@given(st.decimals("0.0001", 10, places=9), st.decimals("0.0001", 10, places=3), st.sampled_from(["", "guarded"]))
def test_what_is_recorded_is_judged_as_what_was_computed(value: Decimal, most: Decimal, rule: str) -> None:
    check = Check("c", type="bonding", limit=Limit("", max=most, unit="ohm"), rule=rule)
    body = {"value": {"text": f"{value:f}", "unit": "ohm"}, "uncertainty": {"text": "0.01", "unit": "ohm"}}
    short = shortened(check, body, 3)
    verdicts = {judge(check, read).verdict for read in (Reading.of(check, one) for one in (body, short)) if read}
    assert len(verdicts) == 1 and len(short["value"]["text"]) <= len(body["value"]["text"])


@pytest.mark.parametrize("value", [0.4000001, 0.39999996, 0.4, 1 / 3])
def test_pictures_and_answers_show_it_apart_from_its_limit(value: float) -> None:
    figure = margin(value, low=None, high=0.4, unit="um", verdict="")
    assert figure is not None
    shown = next(one.says for one in figure.words if one.large).removesuffix(" um")
    outcome = measure(KINDS["bonding"], {"resistance": value, "limit_max": 0.4})
    told = re.search(r": ([\d.]+) ohm", as_lines(KINDS["bonding"], outcome)[0])
    assert told is not None
    for one in (shown, told[1]):
        assert (Decimal(one) > Decimal("0.4")) == (value > 0.4) and (Decimal(one) == Decimal("0.4")) == (value == 0.4)
        assert len(one) <= 10, "never twelve digits"
