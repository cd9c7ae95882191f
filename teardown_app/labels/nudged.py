"""What a nudge does to the code: over the edge of its label or of the page, or off the page altogether.

A nudge makes good for a printer that prints beside the place. Beyond the edge of the label it may still be right;
beyond the edge of the page the printer cuts off.
"""

from __future__ import annotations

from attrs import frozen

from teardown_app.labels.layout import first_module, layout
from teardown_app.labels.stock import Pair, Stock, StockFault
from teardown_app.labels.symbol import MODULES, QUIET

SLACK_MM = 0.01


@frozen
class Box:
    """Left, top, right, foot in mm."""

    left: float
    top: float
    right: float
    foot: float

    def beyond(self, other: Box) -> float:
        """How far it reaches over the edges of another one, at the worst side; 0 where it stays within."""
        over = other.left - self.left, other.top - self.top, self.right - other.right, self.foot - other.foot
        return max(over) if max(over) > SLACK_MM else 0.0


def check_nudge(stock: Stock, nudge: Pair) -> None:
    """Refuses a nudge that pushes modules of a code off the page: nobody can read what is left."""
    page = Box(0, 0, *stock.page_mm)
    cut = max(_code(stock, n, nudge).beyond(page) for n in _outermost(stock))
    if cut:
        raise StockFault(
            f"Stock {stock.name}: nudged {nudge[0]:+.1f} {nudge[1]:+.1f} mm the code is cut by {cut:.1f} mm at the "
            "edge of the page.",
            "Nudge by less, and load the paper anew.",
        )


def nudge_caution(stock: Stock, nudge: Pair) -> str:
    """Says so where the code or its quiet zone lies over the edge of its label or page; else empty."""
    page, quiet = Box(0, 0, *stock.page_mm), QUIET * stock.module_mm
    worst = 0.0
    for n in _outermost(stock):
        code = _code(stock, n, nudge)
        zone = Box(code.left - quiet, code.top - quiet, code.right + quiet, code.foot + quiet)
        worst = max(worst, zone.beyond(page), zone.beyond(_label(stock, n)))
    if not worst:
        return ""
    return (
        f"The nudge puts code and quiet zone {worst:.1f} mm over the edge of the label: right only for a printer "
        "that prints that far beside. Print the test page."
    )


def _outermost(stock: Stock) -> tuple[int, int]:
    return 0, stock.per_page - 1


def _label(stock: Stock, n: int) -> Box:
    left, top = stock.place(n)
    return Box(left, top, left + stock.label_mm[0], top + stock.label_mm[1])


def _code(stock: Stock, n: int, nudge: Pair) -> Box:
    """The modules of a label's code, without the quiet zone."""
    corner = stock.place(n)
    left, top = first_module(layout(stock), (corner[0] + nudge[0], corner[1] + nudge[1]), stock)
    side = MODULES * stock.module_mm
    return Box(left, top, left + side, top + side)
