"""A small invented shop to try the app on: people, places, bills, two jobs. Nothing of it is a real shop's."""

from __future__ import annotations

from datetime import date, timedelta
from shutil import copytree

from teardown_app.labels.supplies import sample_bill
from teardown_app.workflows.instrument import give_instrument
from teardown_app.workflows.shop import add_place, give_rights
from teardown_app.workshop import Workshop

PEOPLE = {
    "MK": ("record", "release", "scrap", "concede", "sign", "office"),
    "TB": ("record",),
    "CR": ("record",),
    "AS": ("record", "release", "sign"),
}
PLACES = ("BENCH 1", "RACK 3-2", "TRAY 4", "WASH BENCH")
INSTRUMENTS = (
    ("roughness tester", "stylus 2", "um", "0.02 um", "10 um", "0.01 um + 4 %"),
    ("dial indicator", "indicator 7", "mm", "0 mm", "10 mm", "0.004 mm"),
    ("inside micrometer", "bore set 1", "mm", "50 mm", "500 mm", "0.006 mm"),
)
"""What they read, name, unit, range, uncertainty (k = 2): invented."""
JOBS = (
    ("brd-25", "BRD-25", "PO-7781", "0417-22", "2026-12-18"),
    ("ddp-12", "pump DDP-12", "PO-7790", "118-03", "2026-12-04"),
)


def _register_instruments(workshop: Workshop, first: str) -> None:
    """Calibrated this year, due in the next: whenever the demo is begun."""
    today = date.fromisoformat(workshop.now().wall[:10])
    numbers, issued = workshop.new_numbers("M", len(INSTRUMENTS))
    workshop.record([issued], first)
    days = {"calibrated": f"{today - timedelta(days=90)}", "due": f"{today + timedelta(days=275)}"}
    for number, (reads, name, unit, low, high, size) in zip(numbers, INSTRUMENTS, strict=True):
        said = {"reads": reads, "name": name, "unit": unit, "low": low, "high": high, "uncertainty": size}
        workshop.record(give_instrument(workshop.shop_act(first), number, out=False, **said, **days), first)


def furnish(workshop: Workshop) -> None:
    """Fills an empty data folder; one that has people already is left as it is."""
    from teardown_app.intake.bill import read_bill  # brings the workbooks' library with it

    if workshop.shop.people():
        return
    first = next(iter(PEOPLE))
    for code, rights in PEOPLE.items():
        workshop.record(give_rights(workshop.shop_act(first), code, rights=rights), first)
    _register_instruments(workshop, first)
    for place in PLACES:
        workshop.record(add_place(workshop.shop_act(first), place), first)
    for folder, name, order, serial, due in JOBS:
        bills = workshop.home.path / "bills" / folder
        if not bills.is_dir():
            copytree(sample_bill(folder), bills)
        bill = read_bill(bills, workshop.materials).bill
        if bill is not None:
            workshop.open_from_bill(bill, bills, first, name=name, order=order, serial=serial, due=due)
