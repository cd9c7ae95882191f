"""The document of the records says what the code does."""

from __future__ import annotations

from teardown_app.domain.ledger.acts import NO, ROWS
from teardown_app.domain.ledger.facets import FACETS, HEADS, UNION
from teardown_app.domain.ledger.kinds import KINDS
from tests.state.records_tables import DOCUMENT, SAFER, filled_in


def test_tables_of_kinds_and_facets_are_those_of_the_code() -> None:
    text = DOCUMENT.read_text(encoding="utf-8")
    assert filled_in(text) == text, "write it anew: python -m tests.state.records_tables"


def test_every_facet_that_a_kind_writes_has_a_rule_of_merging() -> None:
    written = {facet for kind in KINDS.values() for facet in kind.facets}
    assert written - set(FACETS) == set()
    assert set(FACETS) - written == set()


def test_every_safer_value_is_of_a_facet_with_heads() -> None:
    assert all(FACETS[name].rule != UNION.rule for name in SAFER)


def test_every_facet_with_a_safer_value_of_its_own_has_it_in_words() -> None:
    assert {name for name, merge in FACETS.items() if merge.safer is not HEADS.safer} == set(SAFER)


def test_every_kind_of_a_job_has_its_sentence() -> None:
    assert [kind.typ for kind in KINDS.values() if not kind.shop and not kind.says] == []


def test_what_is_never_taken_back_has_a_name_for_saying_so() -> None:
    """The table of acts says which: all rows of the kind say no. The shop's own are not asked for by name."""
    never = {typ for typ in KINDS if {row.taken_back for row in ROWS if typ in row.of} == {NO} and not KINDS[typ].shop}
    assert never == {kind.typ for kind in KINDS.values() if kind.lasting}
