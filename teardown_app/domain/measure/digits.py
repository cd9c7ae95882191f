"""Shown as judged: a computed value without the noise of the computing, in digits enough to tell it from its limit.

Otherwise it has the digits of its instrument: of its resolution, or of the raw readings as they were given.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Context, Decimal
from typing import Any

from teardown_app.domain.bill.check import Check
from teardown_app.domain.measure.judging import Reading, judge
from teardown_app.domain.measure.measuring import Numbers, numbers_in
from teardown_app.domain.measure.raw import own_readings_of
from teardown_app.domain.measure.reading import read_quantity
from teardown_app.domain.measure.units import converted
from teardown_app.metrology.kind import Kind

MOST = 6
"""Significant digits that a computed value is shown with at most, where it need not be told from its limit."""
FINEST = 28
"""Of a number as typed; no more are ever needed to tell it from another one."""


def told_apart(value: Decimal, ends: Iterable[Decimal | None], digits: int = MOST) -> str:
    """A number in so many significant digits, and in more where it would else be taken for one of the ends.

    >>> told_apart(Decimal("0.4000001"), [Decimal("0.4")]), told_apart(Decimal("0.123456789"), [Decimal("0.4")], 3)
    ('0.4000001', '0.123')
    """
    others = [one for one in ends if one is not None]
    for prec in range(max(digits, 1), FINEST):
        shown = Context(prec=prec).plus(value)
        if all(shown.compare(one) == value.compare(one) for one in others):
            return f"{shown.normalize():f}"
    return f"{value:f}"


def shortened(check: Check, body: Mapping[str, Any], digits: int) -> dict[str, Any]:
    """A computed value of a record in the fewest digits, from `digits` on, that are judged as it is itself."""
    value, asked = Decimal(body["value"]["text"]), _judged(check, body)
    for prec in range(max(digits, 1), FINEST):
        text = f"{Context(prec=prec).plus(value).normalize():f}"
        short = {**body, "value": {**body["value"], "text": text}}
        if _judged(check, short) == asked:
            return short
    return dict(body)


def _judged(check: Check, body: Mapping[str, Any]) -> tuple[str, ...]:
    """The verdict, and on which side of each end the value lies."""
    read = Reading.of(check, body)
    if read is None:
        return ()
    ends = [one for one in (read.limit.min, read.limit.max) if one is not None]
    return judge(check, read).verdict, *(str(read.values[0].compare(one)) for one in ends)


def digits_shown(kind: Kind, given: Mapping[str, Any], resolution: str, value: Decimal, unit: str) -> int:
    """Significant digits that a computed value has by its instrument: by the resolution of that, where it is one of the
    value's own sort."""
    step = read_quantity(resolution)
    finest = converted(step.value, step.unit, unit) if step else None
    if finest is None:
        finest = _finest_in(numbers_in(kind, given, unit))
    if finest is not None:
        return min(max(value.adjusted() - finest.adjusted() + 1, 1), MOST) if value else 1
    read = [len(one.normalize().as_tuple().digits) for one in own_readings_of(kind, given)]
    return min(max([3, *read]), MOST)


def _finest_in(found: Numbers) -> Decimal | None:
    """The last place that a reading in the value's own unit has."""
    steps = [one.normalize().as_tuple().exponent for one in found if one]
    places = [one for one in steps if isinstance(one, int)]
    return Decimal(1).scaleb(min(min(places), 0)) if places else None
