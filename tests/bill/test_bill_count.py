"""The number of positions against a second, independent way of counting: paths in a graph (networkx)."""

from __future__ import annotations

from decimal import Decimal
from math import prod
from pathlib import Path
from tempfile import TemporaryDirectory

import networkx as nx
from hypothesis import given, settings
from hypothesis import strategies as st

from teardown_app.domain.bill.bill import Bill, Line
from teardown_app.intake.bill import read_bill
from tests.bill.written import folder, materials, read

Row = tuple[str, str, str, str]
"""position, quantity, unit, kind."""

COUNTING = ("EA", "PR", "SET")
MEASURED = ("M", "MM", "CM", "FT", "IN", "KG", "G", "L", "ML")


@st.composite
def bills(draw: st.DrawFn) -> list[Row]:
    """Random trees: assemblies of counting units above, anything at the ends."""
    rows: list[Row] = []
    places = [""]
    for number in range(draw(st.integers(1, 14))):
        parent = draw(st.sampled_from(places))
        position = f"{parent}.{number + 1}" if parent else str(number + 1)
        kind = draw(st.sampled_from(("assembly", "part", "hardware", "consumable", "temporary")))
        measured = () if kind == "hardware" else MEASURED  # hardware that is not counted is a fault
        unit = draw(st.sampled_from(COUNTING if kind == "assembly" else (*COUNTING, *measured, "AR", "REF")))
        quantity = str(draw(st.integers(1, 4))) if unit in COUNTING else draw(st.sampled_from(("0.5", "2", "3.25")))
        rows.append((position, quantity, unit, kind))
        if kind == "assembly":
            places.append(position)
    return rows


def counted_by_paths(rows: list[Row]) -> int:
    """Sum over lines of the product of factors along the only path from the tool."""
    graph = nx.DiGraph()
    for position, quantity, unit, kind in rows:
        is_many = unit in COUNTING and kind != "hardware"
        factor = 0 if unit in ("AR", "REF") else int(quantity) if is_many else 1
        graph.add_edge(position.rpartition(".")[0] or "tool", position, factor=factor)
    assert nx.is_directed_acyclic_graph(graph)
    return sum(
        prod(graph.edges[step]["factor"] for step in nx.utils.pairwise(nx.shortest_path(graph, "tool", position)))
        for position, *_ in rows
    )


@given(bills(), st.randoms())
@settings(max_examples=150)
def test_positions_are_the_products_along_the_paths(rows: list[Row], random: object) -> None:
    expected = counted_by_paths(rows)
    random.shuffle(rows)  # type: ignore[attr-defined]
    text = "position,part_number,quantity,unit,kind\n" + "".join(f"{p},P,{q},{u},{k}\n" for p, q, u, k in rows)
    with TemporaryDirectory() as place:
        reading = read_bill(folder(Path(place), text), materials())
    assert reading.faults == []
    assert reading.positions == expected
    assert reading.bill is not None
    assert len(reading.bill.positions) == expected
    assert set(reading.bill.positions) == named_by_hand(rows)


def named_by_hand(rows: list[Row]) -> set[str]:
    """Names of all positions, written out step by step."""
    by_position = {position: (quantity, unit, kind) for position, quantity, unit, kind in rows}
    names: set[str] = set()
    for position in by_position:
        steps = position.split(".")
        found = [""]
        for depth in range(1, len(steps) + 1):
            quantity, unit, kind = by_position[".".join(steps[:depth])]
            many = unit in COUNTING and kind != "hardware" and int(quantity) > 1
            endings = [f"/{n}" for n in range(1, int(quantity) + 1)] if many else [""]
            found = [f"{name}.{steps[depth - 1]}{ending}" for name in found for ending in endings]
        if by_position[position][1] not in ("AR", "REF"):
            names.update(name[1:] for name in found)
    return names


@given(bills())
@settings(max_examples=100)
def test_tree_questions_agree_with_the_names(rows: list[Row]) -> None:
    lines = tuple(
        Line(
            p,
            p.rpartition(".")[0],
            n,
            "P",
            quantity=None if u in ("AR", "REF") else Decimal(q),
            unit=u,
            kind=k,
        )
        for n, (p, q, u, k) in enumerate(rows)
    )
    bill = Bill("m", "a", lines=lines)
    keys = list(bill.positions)
    for key in keys:
        beneath = [each.key for each in bill.beneath(key)]
        assert beneath == [other for other in keys if other.startswith(f"{key}.")]
        assert list(bill.ancestors(key)) == [other for other in reversed(keys) if key.startswith(f"{other}.")]


def test_an_empty_bill_has_a_fault(tmp_path: Path) -> None:
    reading = read(tmp_path, "position,part_number,quantity\n")
    assert [(fault.file, fault.row) for fault in reading.faults] == [("bill.csv", 1)]
    assert reading.positions == 0
