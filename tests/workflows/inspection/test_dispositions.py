"""Dispositions: who may give which, and what stands against scrap."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench


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


def test_a_milder_disposition_names_the_part_and_says_that_it_is_milder(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.do("part judge PO-7781 10.20 --as repair --by MK")
    said = bench.refused("part judge PO-7781 10.20 --as 'use as is' --by MK")
    assert f"{bench.tag(part)} bowl 10.20 is dispositioned repair, and use as is is milder" in said
    assert "milder than repair before" in bench.do("part judge PO-7781 10.20 --as rework --by OF")
    assert "milder" not in bench.do("part judge PO-7781 10.20 --as repair --by MK")


def test_one_refused_part_keeps_the_whole_act_from_being_recorded(bench: Bench) -> None:
    bench.off("10.20", "10.30")
    bench.do("part find PO-7781 10.30 --word crack --cause wear --by MK")
    said = bench.refused("part judge PO-7781 10.20 10.30 --as scrap --by OF")
    assert "ring 10.30" in said and "crack (not asked yet)" in said
    assert bench.ask("part show PO-7781 10.20")["disposition"] == ""


def test_spare_and_return_wait_until_the_part_is_out(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.write("part.fitted", part, "@10.20")
    for word in ("spare", "return unrepaired"):
        assert "part out" in bench.refused(f"part judge PO-7781 10.20 --as '{word}' --by OF")
    bench.do("part judge PO-7781 10.20 --as rework --by MK")


def test_the_same_disposition_again_is_not_milder_and_needs_no_other_right(bench: Bench) -> None:
    bench.off("10.20")
    bench.do("part judge PO-7781 10.20 --as repair --by MK")
    assert "milder" not in bench.do("part judge PO-7781 10.20 --as repair --why 'seen twice' --by MK")
