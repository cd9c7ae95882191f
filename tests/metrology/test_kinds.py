"""What holds for every kind of measurement: names, units, examples, and the fields it says it takes."""

from __future__ import annotations

import inspect
import json

import pytest

from teardown_app.domain.measure.measuring import JUDGING, fields_of, measure
from teardown_app.metrology.kind import CHOICE, NUMBERS, TABLE, Kind
from teardown_app.metrology.kinds import ASKS, all_kinds

KINDS = all_kinds()


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_a_kind_computes_its_example_from_the_fields_it_names(kind: Kind) -> None:
    names = [field.name for field in kind.fields]
    assert len(set(names)) == len(names) and not set(names) & {field.name for field in JUDGING if kind.judged}
    assert set(inspect.signature(kind.compute).parameters) == set(names)
    assert set(kind.example) <= set(names)
    result = measure(kind, json.loads(json.dumps(dict(kind.example)))).result
    assert not kind.judged or isinstance(result.named(kind.judged), float)
    assert all(note.strip().endswith((".", "?")) for note in result.notes), result.notes


@pytest.mark.parametrize("kind", KINDS.values(), ids=KINDS)
def test_its_fields_say_what_they_hold(kind: Kind) -> None:
    for field in fields_of(kind):
        assert field.name == field.name.lower() and field.says
        assert (field.form == CHOICE) == bool(field.choices)
        assert not (field.optional and field.default is not None)
        if field.form in (NUMBERS, TABLE):
            assert field.default is None


def test_the_bench_is_asked_only_for_fields_that_may_be_left_out() -> None:
    for name, asks in ASKS.items():
        known = {field.name: field for field in KINDS[name].fields}
        assert all(known[one].optional or known[one].default is not None for one in asks), name
