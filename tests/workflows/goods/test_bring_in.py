"""A replacement is brought in: what stands against it, and what the place then still lacks."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.pump import PUMP

NEW = "part bring-in PO-7781 P-1020 --origin new --for 10.20"


def test_a_second_replacement_waits_for_the_first(bench: Bench) -> None:
    first = bench.ask(f"{NEW} --new-number --by OF")["number"]
    said = bench.refused(f"{NEW} --new-number --by OF")
    assert first in said and "bowl 10.20" in said and "part judge" in said
    bench.do(f"part judge PO-7781 {first} --as 'return unrepaired' --why dented --by OF")
    assert bench.ask(f"{NEW} --new-number --by OF")["number"] != first


def test_a_part_with_a_question_open_is_named_with_its_reference(bench: Bench) -> None:
    (old,) = bench.off("10.20")
    bench.do("part find PO-7781 10.20 --word crack --cause freight --by MK")
    finding = bench.points("approval waiting")
    assert finding == ["10.20"]
    name = bench.ask("part show PO-7781 10.20")
    with bench.open() as workshop:
        (one,) = [point for point in workshop.find_job("PO-7781").live.points() if point.kind == "approval waiting"]
    bench.write("approval.given", one.key.split("|")[2], **{"as": "asked", "reference": "mail 41"})
    said = bench.refused(f"{NEW} --new-number --by OF")
    assert name["part"] and bench.tag(old) in said and "(asked in mail 41)" in said and "finding answer" in said


def test_a_part_that_is_away_does_not_stand_in_the_way(bench: Bench) -> None:
    bench.job(PUMP, order="PO-9")
    bench.off("10.20")
    bench.do("part hand-over PO-7781 10.20 --to PO-9 --for 10.20 --consent 'mail 3' --by OF")
    bench.do(f"{NEW} --new-number --by OF")


def test_a_part_meant_for_elsewhere_by_now_does_not_stand_in_the_way(bench: Bench) -> None:
    (rotor,) = bench.off("20/1.10")
    bench.write("part.noted", rotor, meant_for="20/2.10")
    bench.do("part bring-in PO-7781 P-2010 --origin stock --for 20/1.10 --new-number --by OF")
    said = bench.refused("part bring-in PO-7781 P-2010 --origin stock --for 20/2.10 --new-number --by OF")
    assert bench.tag(rotor) in said


def test_a_part_that_sits_in_another_place_does_not_stand_in_the_way(bench: Bench) -> None:
    """The rotor of the first pump went into the second, whose own one waits: the first lacks one."""
    new = "part bring-in PO-7781 P-2010 --origin stock --new-number --by OF --for"
    first, waits = bench.off("20/1.10", "20/2.10")
    bench.judged(first)
    bench.do("part release PO-7781 20/1.10 --by OF")
    said = bench.refused(f"{new} 20/1.10")
    assert bench.tag(first) in said and "still meant to go back" in said
    bench.do("part fit PO-7781 20/1.10 --position 20/2.10 --by AS")
    said = bench.refused(f"{new} 20/2.10")
    assert bench.tag(waits) in said and "still meant to go back" in said
    replacement = bench.ask(f"{new} 20/1.10")["number"]
    said = bench.refused(f"{new} 20/1.10")
    assert replacement in said and "still meant to go back" in said, "now this one waits to go in"


def test_a_part_in_its_own_place_comes_out_first(bench: Bench) -> None:
    """What is replaced is out of the way, and answered for."""
    (rotor,) = bench.off("20/1.10")
    bench.judged(rotor)
    bench.do("part release PO-7781 20/1.10 --by OF")
    bench.do("part fit PO-7781 20/1.10 --by AS")
    said = bench.refused("part bring-in PO-7781 P-2010 --origin stock --for 20/1.10 --new-number --by OF")
    assert "part out" in said and bench.tag(rotor) in said


def test_a_number_is_one_parts_only(bench: Bench) -> None:
    (ring,) = bench.off("10.30")
    tag = bench.tag(ring)
    assert "ring 10.30 already" in bench.refused(f"{NEW} --number {tag} --by OF")
    number = bench.job(PUMP, order="PO-9")
    said = bench.refused(f"part bring-in PO-9 P-1020 --origin new --for 10.20 --number {tag} --by OF")
    assert tag in said and "PO-7781" not in number and "ring 10.30" in said and "next label" in said
    with bench.open() as workshop:
        (carrier,), issued = workshop.new_numbers("C", 1)
        workshop.record([issued], "OF")
    assert "label for" in bench.refused(f"{NEW} --number {carrier} --by OF")


def test_nothing_is_brought_in_for_what_is_not_in_the_order(bench: Bench) -> None:
    bench.do("job received PO-7781 10.20 --as 'out of scope' --why 'order says so' --by OF")
    said = bench.refused(f"{NEW} --new-number --by OF")
    assert "bowl 10.20" in said and "out of scope" in said and "job received" in said
    assert "no place of this tool" in bench.refused(
        "part bring-in PO-7781 P-1020 --origin new --for 99 --new-number --by OF"
    )


def test_a_pair_is_good_again_as_a_complete_new_set_under_one_mark(bench: Bench) -> None:
    for key, number in (("20/1.20", "P-2020"), ("20/1.30", "P-2030")):
        act = f"part bring-in PO-7781 {number} --origin new --for {key} --new-number --set-mark S1 --serial 9 --by OF"
        answer = bench.ask(act)
        bench.write("part.fitted", answer["part"], f"@{key}")
        mixed = bench.points("swapped within a matched set")
    assert mixed == []


def test_a_new_part_is_missed_until_it_is_fitted(bench: Bench) -> None:
    part = bench.ask(f"{NEW} --new-number --by OF")["part"]
    assert bench.points("tagged but unaccounted for") == ["10.20"] and "10.20" in bench.points("missing")
    bench.write("part.fitted", part, "@10.20")
    assert bench.points("tagged but unaccounted for") == [] and "10.20" not in bench.points("missing")
    assert bench.points("not released") == ["10.20"]
