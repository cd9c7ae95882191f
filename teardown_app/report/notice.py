"""The notice of a recall: readings of a closed job that an instrument found out later makes doubtful."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from fpdf import FPDF

from teardown_app.domain.ledger.harmless import harmless
from teardown_app.domain.parts.recall import Touched

FACE = "fonts/DejaVuSansCondensed.ttf"
COLUMNS = ("place", "part", "check", "read", "value", "said", "now")
WIDTHS_MM = (22.0, 24.0, 46.0, 20.0, 26.0, 18.0, 24.0)
BODY_PT, HEAD_PT = 9, 14
MADE = datetime(2026, 1, 1, tzinfo=UTC)
"""A fixed day, so that the same readings give the same file."""


def notice(order: str, serial: str, touched: Sequence[Touched], assets: Path) -> bytes:
    """One A4 page or more, by order reference alone: what was read, and whether it stands."""
    pdf = FPDF(format="A4")
    pdf.set_creation_date(MADE)
    pdf.add_font("text", fname=assets / FACE)
    pdf.set_auto_page_break(True, 15)
    pdf.add_page()
    pdf.set_font("text", size=HEAD_PT)
    pdf.multi_cell(0, 8, harmless(f"Notice on order {order}, tool {serial}"), new_x="LMARGIN", new_y="NEXT")
    pdf.set_font("text", size=BODY_PT)
    for why in sorted({one.why for one in touched}):
        pdf.multi_cell(0, 5, harmless(f"{why[0].upper()}{why[1:]}."), new_x="LMARGIN", new_y="NEXT")
    pdf.multi_cell(0, 5, _sum(touched), new_x="LMARGIN", new_y="NEXT")
    pdf.ln(3)
    with pdf.table(col_widths=WIDTHS_MM, line_height=5, first_row_as_headings=True, headings_style=_plain()) as table:
        table.row(COLUMNS)
        for one in touched:
            check = f"{one.check} at {one.spot}" if one.spot else one.check
            row = (one.position, one.part, check, one.day, one.value, one.verdict, one.becomes)
            table.row(list(map(harmless, row)))
    return bytes(pdf.output())


def _sum(touched: Sequence[Touched]) -> str:
    again = sum(one.becomes == "due again" for one in touched)
    return (
        f"{len(touched)} readings were taken with it after that day. Of these {again} have to be read again, because "
        "the error could change their verdict; the others stand."
    )


def _plain() -> object:
    from fpdf.fonts import FontFace

    return FontFace(emphasis=None)
