"""Gestures per part stay within what was promised, and the page says what is counted."""

from __future__ import annotations

from tests.ui.ease import PAGE, counted, page


def test_no_job_takes_more_gestures_than_promised() -> None:
    """The most are those the product was planned with; `docs/ease.md` is written from the same count."""
    rows = counted()
    for name, what, most, number, _ in rows:
        assert number <= most, f"{name} ({what}) takes {number} gestures"
    assert PAGE.read_text(encoding="utf-8") == page(rows)
