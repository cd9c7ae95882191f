"""The document of the format says what the code reads."""

from __future__ import annotations

import re
from pathlib import Path

import attrs
import pytest

from teardown_app.domain.bill.bill import (
    Bill,
    Callout,
    Check,
    Component,
    Gate,
    Joint,
    Limit,
    Line,
    Operation,
    Route,
)
from teardown_app.domain.bill.check import MOMENTS, NEEDS, PROTECTIVE, RULES, VALUES_RULES
from teardown_app.domain.bill.gate import GATES
from teardown_app.domain.bill.limit import COMPARISONS
from teardown_app.domain.bill.line import KINDS
from teardown_app.domain.bill.route import ORIGINS
from teardown_app.domain.bill.units import UNITS
from teardown_app.intake.bill_lines import RENEWALS, SHIPPING, WRITTEN_DOWN
from teardown_app.intake.bill_sense import POSITIONS_MAX
from teardown_app.intake.headings import BILL, CALLOUTS, CHECK_KEYS, COMPONENTS, LIMIT_KEYS, OPERATION_KEYS
from teardown_app.intake.joint_words import WORDS
from teardown_app.intake.sheet import CELL_BYTES_MAX, FILE_BYTES_MAX, ROWS_MAX, UNPACKED_BYTES_MAX
from teardown_app.intake.step_names import DEEPEST
from tests.bill.written import good

DOCUMENT = Path(__file__).parents[2] / "docs" / "formats" / "bill.md"
TEXT = " ".join(DOCUMENT.read_text(encoding="utf-8").split())


@pytest.mark.parametrize("columns", [BILL, COMPONENTS, CALLOUTS])
def test_every_heading_is_in_the_document(columns: dict[str, tuple[str, ...]]) -> None:
    for column, words in columns.items():
        assert f"`{column}`" in TEXT
        assert [word for word in words if word not in TEXT] == []


def test_every_key_is_in_the_document() -> None:
    for key in (*CHECK_KEYS, *LIMIT_KEYS, *OPERATION_KEYS, *WORDS):
        assert re.search(rf"\b{key}\b", TEXT), key


def test_every_word_to_choose_from_is_in_the_document() -> None:
    choices = (
        *UNITS,
        *KINDS,
        *RENEWALS,
        *WRITTEN_DOWN,
        *SHIPPING,
        *MOMENTS,
        *NEEDS,
        *RULES,
        *VALUES_RULES,
        *ORIGINS,
    )
    for word in (*choices, *GATES, *COMPARISONS, *PROTECTIVE):
        assert re.search(rf"(?<!\w){re.escape(word)}(?!\w)", TEXT), word


def test_every_limit_of_size_is_in_the_document() -> None:
    assert f"{FILE_BYTES_MAX // 10**6} MB a file, {UNPACKED_BYTES_MAX // 10**6} MB unpacked" in TEXT
    assert f"{ROWS_MAX:,} rows, {POSITIONS_MAX:,} positions, {CELL_BYTES_MAX:,} bytes a cell" in TEXT
    assert f"{DEEPEST} steps deep" in TEXT


@pytest.mark.parametrize("kind", [Bill, Line, Joint, Component, Check, Limit, Route, Operation, Gate, Callout])
def test_every_field_of_the_frozen_bill_is_in_the_document(kind: type) -> None:
    frozen = TEXT.partition("## 13.")[2]
    assert [field.name for field in attrs.fields(kind) if f"`{field.name}`" not in frozen] == []


def test_the_examples_of_the_document_are_good(tmp_path: Path) -> None:
    about, routes = re.findall(r"```toml\n(.*?)```", DOCUMENT.read_text(encoding="utf-8"), re.DOTALL)
    bill = good(
        tmp_path,
        "position,Our No.,quantity,material,route,checks\n10,A,1,316L,pickle-passivate,water-break\n",
        about=about,
        routes=routes,
        checks="[water-break]\n",
    )
    assert bill.routes["pickle-passivate"].operations[0].check == ("water-break",)
