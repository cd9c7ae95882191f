"""Whatever stands in the files, reading ends with a bill or faults, never with an exception."""

from __future__ import annotations

import io
import random
import zipfile
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from teardown_app.intake.bill import Reading, read_bill
from tests.bill.written import ABOUT, folder, materials, workbook

FILES = {
    "bill.toml": ABOUT + '[columns]\n"No" = "position"\n',
    "bill.csv": (
        "No;P/N;Description;Qty;UoM;Kind;Material;Routing;Checks;Fit after;Joint;Renew\n"
        '10;A;"BOWL; big";2;;;;;;;;\n10.20;B;RING 1/2";1,5;M;consumable;FKM;;play;;;always\n'
        '10.30;C;"two\nlines";4;;hardware;A4-70;;;10.20;size=M6 torque_nm=6 holds=10.20;\n'
        "20;D;x;1;;;316L;wash;play;10;;\n"
    ),
    "components.csv": "part_number;alternates;superseded_by;lead_days\nA;B;C;14\nC;;D;\n",
    "checks.toml": '[play]\nlimit = { max = "0.02 mm" }\nwhen = ["as found", "finished"]\nspots = ["a", "b"]\n',
    "routes.toml": (
        '[wash]\norigin = "as received"\n[[wash.operation]]\nid = "a"\nmedium = "water"\nwait = 3\ncheck = "play"\n'
    ),
    "gates.toml": '["closed up"]\nassemblies = ["10"]\n',
    "recipes.toml": "[rinse]\nsteps = [{ a = 1 }]\n",
    "callouts.csv": "drawing;position;x;y\n10.png;10;0,5;0,5\n",
}


def whole(place: Path) -> Path:
    """A folder with every file a bill can have."""
    folder(place, None, drawings="10.png")
    for name, text in FILES.items():
        (place / name).write_text(text, encoding="utf-8", newline="")
    return place


def check(reading: Reading) -> None:
    """What holds for every reading."""
    assert (reading.bill is None) == bool(reading.faults)
    for fault in reading.faults + reading.notes:
        assert fault.file
        assert fault.message
        assert fault.row >= 0
    if reading.bill is not None:
        assert reading.positions == len(reading.bill.positions)
        for key in reading.bill.positions:
            reading.bill.closes_over(key)
            reading.bill.closed_by(key)


def test_the_whole_bill_is_good(tmp_path: Path) -> None:
    reading = read_bill(whole(tmp_path), materials())
    assert reading.faults == []
    check(reading)


@pytest.mark.parametrize("name", sorted(FILES))
@given(st.binary(max_size=300))
@settings(max_examples=25)
def test_any_bytes_in_any_file(name: str, raw: bytes) -> None:
    with TemporaryDirectory() as place:
        whole(Path(place))
        (Path(place) / name).write_bytes(raw)
        check(read_bill(Path(place), materials()))


@pytest.mark.parametrize("name", sorted(FILES))
@given(st.integers(0, 2**32))
@settings(max_examples=40)
def test_a_file_with_some_bytes_changed(name: str, seed: int) -> None:
    dice = random.Random(seed)
    raw = bytearray(FILES[name].encode())
    for _ in range(dice.randint(1, 6)):
        place = dice.randrange(len(raw))
        if dice.random() < 0.3:
            del raw[place : place + dice.randint(1, 20)]
        else:
            raw[place : place + dice.randint(0, 2)] = bytes(
                dice.choices(b';,\n\r"=.0159AB[]{}#\x00\xff\t -+@/', k=dice.randint(0, 3))
            )
        raw = raw or bytearray(b" ")
    with TemporaryDirectory() as folder_name:
        whole(Path(folder_name))
        (Path(folder_name) / name).write_bytes(raw)
        check(read_bill(Path(folder_name), materials()))


CELLS = st.one_of(
    st.sampled_from(
        [
            "",
            "-",
            "10",
            "10.20",
            "0",
            "1,500",
            "EA",
            "M",
            "AR",
            "hardware",
            "=1",
            "10;20",
            "M6",
            "nan",
            "\x0b",
            "9" * 40,
        ]
    ),
    st.text(max_size=6),
)
COLUMNS = (
    "position",
    "level",
    "part_number",
    "quantity",
    "unit",
    "kind",
    "material",
    "route",
    "fit_after",
    "joint",
    "option",
    "x",
)


@given(
    st.lists(st.sampled_from(COLUMNS), min_size=1, max_size=8),
    st.lists(st.lists(CELLS, max_size=9), max_size=6),
)
@settings(max_examples=150)
def test_any_cells_beneath_any_headings(heads: list[str], rows: list[list[str]]) -> None:
    text = "\n".join("\t".join(cell.replace("\t", " ").replace("\n", " ") for cell in row) for row in [heads, *rows])
    with TemporaryDirectory() as place:
        check(read_bill(folder(Path(place), text.encode("utf-8", "replace")), materials()))


@given(st.integers(0, 2**32))
@settings(max_examples=60)
def test_a_workbook_with_some_bytes_changed(seed: int) -> None:
    dice = random.Random(seed)
    with TemporaryDirectory() as place:
        path = workbook(
            Path(place) / "tool.xlsx",
            bill=[["position", "part_number", "quantity"], ["10", "A", 1], ["10.20", "B", 2.5]],
        )
        raw = _changed_inside(path.read_bytes(), dice) if dice.random() < 0.7 else _changed(path.read_bytes(), dice)
        path.write_bytes(raw)
        check(read_bill(path, materials()))


def _changed(raw: bytes, dice: random.Random) -> bytes:
    made = bytearray(raw)
    for _ in range(dice.randint(1, 8)):
        made[dice.randrange(len(made))] = dice.randrange(256)
    return bytes(made[: dice.randint(1, len(made))]) if dice.random() < 0.2 else bytes(made)


def _changed_inside(raw: bytes, dice: random.Random) -> bytes:
    """One part of the workbook changed, the zip around it whole."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(raw)) as old, zipfile.ZipFile(out, "w") as new:
        chosen = dice.choice(old.namelist())
        for name in old.namelist():
            data = old.read(name)
            if name == chosen:
                place = dice.randrange(max(1, len(data)))
                data = (
                    data[:place]
                    + dice.choice([b"", b"9999999", b"<", b'"', b"x", b"-1", b"\xff", b"NaN"])
                    + data[place + dice.randint(0, 9) :]
                )
            new.writestr(name, data)
    return out.getvalue()
