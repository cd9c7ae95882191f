"""A small invented shop to try the app on: people, places, bills, two jobs. Nothing of it is a real shop's."""

from __future__ import annotations

from shutil import copytree

from teardown_app.labels.supplies import supply
from teardown_app.workflows.shop import add_place, give_rights
from teardown_app.workshop import Workshop

PEOPLE = {
    "MK": ("record", "release", "scrap", "concede", "sign", "office"),
    "TB": ("record",),
    "CR": ("record",),
    "AS": ("record", "release", "sign"),
}
PLACES = ("BENCH 1", "RACK 3-2", "TRAY 4", "WASH BENCH")
JOBS = (
    ("brd-25", "BRD-25", "PO-7781", "0417-22", "2026-12-18"),
    ("ddp-12", "pump DDP-12", "PO-7790", "118-03", "2026-12-04"),
)


def furnish(workshop: Workshop) -> None:
    """Fills an empty data folder; one that has people already is left as it is."""
    from teardown_app.intake.bill import read_bill  # brings the workbooks' library with it

    if workshop.shop.people():
        return
    first = next(iter(PEOPLE))
    for code, rights in PEOPLE.items():
        workshop.record(give_rights(workshop.shop_act(first), code, rights=rights), first)
    for place in PLACES:
        workshop.record(add_place(workshop.shop_act(first), place), first)
    samples = supply("materials.toml").parent.parent / "sample_bills"
    for folder, name, order, serial, due in JOBS:
        bills = workshop.home.path / "bills" / folder
        if not bills.is_dir():
            copytree(samples / folder, bills)
        bill = read_bill(bills, workshop.materials).bill
        if bill is not None:
            workshop.open_from_bill(bill, bills, first, name=name, order=order, serial=serial, due=due)
