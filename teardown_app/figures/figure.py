"""What a plot is made of, as frozen values in the plot's own units."""

from __future__ import annotations

from attrs import field, frozen

from teardown_app.domain.ledger.harmless import harmless

DATA, MEAN, LIMIT, GUARD, GOOD, BAD, UNSURE, OTHER = (
    "data", "mean", "limit", "guard", "good", "bad", "unsure", "other",
)  # fmt: skip
"""Roles: what a line or band stands for. Whoever draws has a colour and a stroke for each, told apart by both."""

Point = tuple[float, float]


@frozen
class Line:
    """Points joined in their order; `closed` joins the last with the first, `dashed` leaves gaps."""

    points: tuple[Point, ...]
    role: str = DATA
    closed: bool = False
    dashed: bool = False


@frozen
class Band:
    """A filled rectangle; `share` of 0 to 1 shades it from empty to full where heights are shown."""

    left: float
    right: float
    low: float
    high: float
    role: str = GOOD
    share: float = 1.0


@frozen
class Mark:
    """A point with a sign: accept, reject, inconclusive, to do, empty, as everywhere in the app."""

    x: float
    y: float
    sign: str
    says: str = ""


@frozen
class Words:
    """A word at a point; `anchor` says where the point lies on it: left, centre or right."""

    x: float
    y: float
    says: str = field(converter=harmless)
    anchor: str = "centre"
    large: bool = False


@frozen
class Figure:
    """One plot. Lines, bands, marks and words lie within left..right and low..high."""

    left: float
    right: float
    low: float
    high: float
    lines: tuple[Line, ...] = ()
    bands: tuple[Band, ...] = ()
    marks: tuple[Mark, ...] = ()
    words: tuple[Words, ...] = ()
    equal: bool = False
    """True where a unit is as long across as up: circles stay round."""
    says: str = ""
    """The plot in one sentence, for whoever cannot see it."""
