"""Findings, what the customer says to them, and dispositions."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench


def test_a_covered_finding_waits_for_nobody(bench: Bench) -> None:
    bench.off("10.20")
    bench.do("part find PO-7781 10.20 --word worn --cause wear --by MK")
    assert bench.points("approval waiting") == []


def test_a_finding_beyond_the_order_waits_until_the_customer_answers(bench: Bench) -> None:
    bench.off("10.20", "10.30")
    said = bench.do("part find PO-7781 10.20 10.30 --word bent --cause freight --by MK")
    assert "the customer has to be asked" in said
    assert bench.points("approval waiting") == ["10.20", "10.30"]
    assert "needs its reference" in bench.refused("finding answer PO-7781 10.20 --as asked --by OF")
    bench.do("finding answer PO-7781 10.20 10.30 --as asked --reference 'mail 1' --by OF")
    assert bench.points("approval waiting") == ["10.20", "10.30"]
    bench.do("finding answer PO-7781 10.20 --as approved --reference 'mail 2' --by OF")
    bench.do("finding answer PO-7781 10.30 --as declined --reference 'mail 2' --by OF")
    assert bench.points("approval waiting") == []
    assert bench.points("declined by the customer") == ["10.30"]
    rows = bench.ask("finding list PO-7781")
    assert [(row["word"], row["answer"], row["reference"]) for row in rows] == [
        ("bent", "approved", "mail 2"),
        ("bent", "declined", "mail 2"),
    ]


def test_answers_are_office_work(bench: Bench) -> None:
    bench.off("10.20")
    assert "has no finding" in bench.refused("finding answer PO-7781 10.20 --as covered --by OF")
    bench.do("part find PO-7781 10.20 --word bent --cause wear --by MK")
    assert "office work" in bench.refused("finding answer PO-7781 10.20 --as covered --by MK")
    said = bench.refused("finding answer PO-7781 10.20 --word crack --as covered --by OF")
    assert "has no finding crack" in said and "bent" in said


def test_words_of_ones_own_need_a_sentence_and_the_customer(bench: Bench) -> None:
    bench.off("10.20")
    said = bench.refused("part find PO-7781 10.20 --word odd --cause wear --by MK")
    assert "none of the shop's words" in said and "light wear" in said
    assert "is no cause" in bench.refused("part find PO-7781 10.20 --word worn --cause gremlins --by MK")
    bench.do("part find PO-7781 10.20 --word odd --cause wear --note 'hums at 900/min' --by MK")
    assert bench.points("approval waiting") == ["10.20"]


def test_a_part_is_not_scrapped_while_a_finding_waits(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.do("part find PO-7781 10.20 --word crack --cause wear --by MK")
    bench.do("finding answer PO-7781 10.20 --as asked --reference 'mail 7' --by OF")
    said = bench.refused("part judge PO-7781 10.20 --as scrap --by OF")
    assert bench.tag(part) in said and "crack (asked in mail 7)" in said and "finding answer" in said
    bench.do("finding answer PO-7781 10.20 --as approved --reference 'mail 8' --by OF")
    bench.do("part judge PO-7781 10.20 --as scrap --by OF")
    assert bench.ask("part show PO-7781 10.20")["disposition"] == "scrap"


def test_milder_dispositions_need_the_right(bench: Bench) -> None:
    bench.off("10.20")
    assert "no right to scrap" in bench.refused("part judge PO-7781 10.20 --as scrap --by MK")
    bench.do("part judge PO-7781 10.20 --as repair --by MK")
    assert "no right to release" in bench.refused("part judge PO-7781 10.20 --as 'use as is' --by MK")
    bench.do("part judge PO-7781 10.20 --as scrap --by OF")
    assert "no right to scrap" in bench.refused("part judge PO-7781 10.20 --as rework --by MK")
    bench.do("part judge PO-7781 10.20 --as rework --by OF")


def test_a_fitted_part_is_not_scrapped_where_it_sits(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.write("part.fitted", part, "@10.20")
    said = bench.refused("part judge PO-7781 10.20 --as scrap --by OF")
    assert "is fitted in bowl 10.20" in said and "part out" in said
