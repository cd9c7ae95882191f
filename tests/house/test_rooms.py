"""Imports go one way, from the doors to the ground; each check is shown to fail on an offending tree."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.house.rooms import import_faults
from tests.house.sources import PROJECT, told


def test_imports_go_one_way_from_the_doors_to_the_ground() -> None:
    """The house as it stands has no import that goes up, across, or out where it may not."""
    faults = import_faults(PROJECT)
    assert not faults, told(faults)


def house(root: Path, module: str, text: str) -> Path:
    """A tree of its own with one file: `workflows/fit` is teardown_app/workflows/fit.py."""
    path = root / "teardown_app" / f"{module}.py"
    path.parent.mkdir(parents=True)
    path.write_text(text, encoding="utf-8")
    return root


@pytest.mark.parametrize(
    ("module", "text", "says"),
    [
        ("domain/bill/bill", "from teardown_app.records import disk", "domain imports teardown_app.records.disk"),
        ("domain/bill/bill", "from ...workflows.fit import fit", "domain imports teardown_app.workflows.fit.fit"),
        ("domain/bill/bill", "def late():\n    import teardown_app.cli", "domain imports teardown_app.cli"),
        ("domain/bill/bill", "from teardown_app import workshop", "domain imports teardown_app.workshop"),
        (
            "workflows/fit",
            "from importlib import import_module\nimport_module('teardown_app.ui')",
            "workflows imports teardown_app.ui",
        ),
        ("cli/jobs", "from teardown_app.ui.app import App", "cli imports teardown_app.ui"),
        ("__main__", "import teardown_app.ui", "cli imports teardown_app.ui"),
        ("ui/app", "from ..cli import main", "ui imports teardown_app.cli"),
        ("labels/sheet", "from teardown_app.exchange import stick", "labels imports teardown_app.exchange"),
        ("intake/bills", "from teardown_app.records.disk import append", "intake imports teardown_app.records"),
        ("records/disk", "from teardown_app.workshop import Workshop", "records imports teardown_app.workshop"),
        ("metrology/flatness", "from teardown_app.domain import bill", "metrology imports teardown_app.domain"),
        ("spare_room/thing", "x = 1", "spare_room is no room"),
        ("domain/bill/bill", "from teardown_app.spare_room import x", "in no room of the house"),
        ("__init__", "from teardown_app.domain import bill", "the package itself imports"),
        ("cli/jobs", "import kivy.app", "cli imports kivy"),
        ("workshop", "from tinydb import TinyDB", "workshop imports tinydb"),
        ("domain/bill/bill", "import numpy", "domain imports numpy"),
        ("domain/bill/bill", "import time", "domain imports time"),
        ("workflows/fit", "from pathlib import Path", "workflows imports pathlib"),
    ],
)
def test_an_import_the_wrong_way_is_named(tmp_path: Path, module: str, text: str, says: str) -> None:
    """One offence in an otherwise empty house gives just one fault that names it."""
    faults = import_faults(house(tmp_path, module, text))
    assert len(faults) == 1, told(faults)
    assert says in faults[0].says


@pytest.mark.parametrize(
    ("module", "imports", "says"),
    [
        ("ledger/record", "bill.line", "ledger knows no other room of domain"),
        ("bill/line", "ledger.record", "bill knows no other room of domain"),
        ("tags/tag", "ledger.record", "tags knows no other room of domain"),
        ("measure/torque", "ledger.record", "measure knows bill"),
        ("measure/torque", "places.joint", "measure knows bill"),
        ("places/joint", "points.point", "within domain too imports go down"),
        ("parts/seat", "places.joint", "within domain too imports go down"),
        ("shop/shop", "job.job", "within domain too imports go down"),
        ("lacks/joint", "points.point", "within domain too imports go down"),
        ("lacks/joint", "against.torque", "within domain too imports go down"),
        ("against/torque", "points.point", "within domain too imports go down"),
        ("points/live", "next.progress", "within domain too imports go down"),
        ("gates/ship", "next.progress", "within domain too imports go down"),
        ("points/live", "attic.thing", "not both are rooms of domain"),
    ],
)
def test_an_import_the_wrong_way_within_domain_is_named(tmp_path: Path, module: str, imports: str, says: str) -> None:
    """The rooms of domain have doors of their own, that open downwards only."""
    faults = import_faults(house(tmp_path, f"domain/{module}", f"from teardown_app.domain.{imports} import x"))
    assert len(faults) == 1, told(faults)
    assert says in faults[0].says


@pytest.mark.parametrize(
    ("module", "imports"),
    [
        ("next/progress", "points.point"),
        ("points/live", "lacks.joint"),
        ("against/torque", "lacks.joint"),
        ("lacks/joint", "places.joint"),
        ("places/joint", "measure.torque"),
        ("signed/release", "parts.seat"),
        ("measure/judging", "bill.limit"),
        ("ledger/facts", "ledger.record"),
    ],
)
def test_an_import_that_goes_down_within_domain_is_let_be(tmp_path: Path, module: str, imports: str) -> None:
    """From the next step to the ledger nothing is in the way."""
    text = f"from teardown_app.domain.{imports} import x"
    assert import_faults(house(tmp_path, f"domain/{module}", text)) == []


@pytest.mark.parametrize(
    ("module", "text"),
    [
        ("cli/jobs", "from teardown_app import __version__\nfrom teardown_app.workshop import Workshop"),
        ("workshop", "from teardown_app.records import disk\nfrom teardown_app.labels import sheet"),
        ("workflows/fit", "from .take import take\nfrom ..domain.bill.bill import Line\nimport datetime, attrs"),
        ("domain/tags/tag", "from stdnum.iso7064 import mod_37_36\nfrom attrs import frozen\nimport decimal"),
        ("ui/app", "import kivy"),
    ],
)
def test_an_import_that_goes_down_is_let_be(tmp_path: Path, module: str, text: str) -> None:
    """What the plan allows gives no fault."""
    assert import_faults(house(tmp_path, module, text)) == []
