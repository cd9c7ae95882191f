"""Which tests are asked about a change in which room, the quickest first."""

from __future__ import annotations

from typing import NamedTuple

WORKFLOWS = tuple(f"tests/workflows/{area}" for area in ("goods", "teardown", "inspection", "office", "reassembly"))
SCREENS = ("tests/ui/test_benches.py", "tests/ui/test_office.py", "tests/ui/test_next_off.py")

ASKED: dict[str, tuple[str, ...]] = {
    "domain/bill": ("tests/bill", "tests/state", *WORKFLOWS, "tests/open_points", "tests/commands"),
    "domain/ledger": (
        "tests/state",
        "tests/labels/test_label_records.py",
        *WORKFLOWS,
        "tests/open_points",
        "tests/next",
        "tests/proof",
    ),
    "domain/measure": (
        "tests/metrology/test_measured_input.py",
        "tests/workflows/inspection",
        "tests/figures",
        "tests/commands/test_measure.py",
        "tests/open_points",
        "tests/bill",
        *WORKFLOWS,
        "tests/ui/test_readings.py",
    ),
    "domain/next": ("tests/workflows/reassembly", "tests/workflows/teardown", "tests/next", *SCREENS, "tests/commands"),
    "domain/tags": (
        "tests/labels/test_tag_numbers.py",
        "tests/labels/test_tag_keyboards.py",
        "tests/ui/test_wedge.py",
        "tests/ui/test_keyed.py",
        "tests/labels",
        "tests/workflows/teardown",
    ),
    "domain": (
        "tests/state",
        *WORKFLOWS,
        "tests/open_points",
        "tests/labels/test_label_records.py",
        "tests/next",
        *SCREENS,
        "tests/proof",
    ),
    "workflows": (*WORKFLOWS, "tests/commands", "tests/labels/test_label_records.py", *SCREENS, "tests/ui"),
    "records": ("tests/records", "tests/faults", "tests/ui/test_pins.py", "tests/commands"),
    "intake/comparison": ("tests/labels/test_comparison.py", "tests/ui/test_recognised.py", "tests/labels"),
    "intake": (
        "tests/bill",
        "tests/metrology/test_measured_input.py",
        "tests/metrology/test_traces.py",
        "tests/labels/test_still_codes.py",
        "tests/labels/test_read_codes.py",
        "tests/labels/test_reading_steps.py",
        "tests/labels",
        "tests/commands",
        "tests/test_sample_bills.py",
        *WORKFLOWS,
    ),
}
"""Beginning of a path below the package -> folders and files of tests; the longest that fits counts."""

GLASS = "tests/ui/glass"
"""Tests with a window: never asked, they take minutes."""


class Step(NamedTuple):
    """One call of pytest: a file or folder, how it is asked, and the list of the tests that are asked of it."""

    target: str
    options: tuple[str, ...] = ()
    listed: str = ""


def asked_about(file: str) -> list[Step]:
    """What pytest is asked about a change of this file, one call after the other: first its own examples."""
    below = file.removeprefix("teardown_app/")
    room = max((one for one in ASKED if below.startswith(one + "/")), key=len)
    tests = (Step(one, (f"--ignore={GLASS}",)) for one in dict.fromkeys(ASKED[room]))
    return [Step(file, ("--doctest-modules",)), *tests]
