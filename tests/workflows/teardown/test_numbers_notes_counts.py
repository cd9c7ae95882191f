"""Labels put on and replaced, two labels on one part, what is noted, where things are put, hardware counted."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench


def test_a_lost_label_is_replaced_and_the_old_number_still_answers(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    old = bench.tag(part)
    assert "part relabel" in bench.refused("part tag PO-7781 10.20 --new-number --by MK")
    new = bench.ask("part relabel PO-7781 10.20 --new-number --why 'came off in the rinse' --by MK")["number"]
    assert bench.ask(f"part show PO-7781 {old}")["tag"] == new == bench.ask(f"part show PO-7781 {new}")["tag"]


def test_a_part_without_a_label_gets_one(bench: Bench) -> None:
    (part,) = bench.off("10.20", number="")
    bench.do("part tag PO-7781 10.20 --new-number --by MK")
    assert bench.tag(part).startswith("P")


def test_two_labels_on_one_part_are_one_part_again(bench: Bench) -> None:
    first, second = bench.off("10.20", "10.30")
    bench.write("part.noted", second, out_of="10.20")
    assert "10.20" in bench.points("two different entries")
    one, other = bench.tag(first), bench.tag(second)
    bench.do(f"part same PO-7781 {one} {other} --why 'tagged twice' --by MK")
    assert "10.20" not in bench.points("two different entries")
    assert len(bench.ask("part list PO-7781")) == 1
    assert "same part already" in bench.refused(f"part same PO-7781 {one} {other} --why x --by MK")


def test_two_fitted_parts_are_not_one(bench: Bench) -> None:
    first, second = bench.off("10.20", "10.30")
    bench.write("part.fitted", first, "@10.20")
    bench.write("part.fitted", second, "@10.30")
    said = bench.refused(f"part same PO-7781 {bench.tag(first)} {bench.tag(second)} --why x --by MK")
    assert "bowl 10.20 and ring 10.30" in said


def test_conditions_are_the_shops_words(bench: Bench) -> None:
    bench.off("10.20")
    said = bench.refused("part note PO-7781 10.20 --condition splendid --by MK")
    assert "none of the shop's words" in said and "good" in said
    bench.do("part note PO-7781 10.20 --condition splendid --says 'better than new' --by MK")
    bench.do("part note PO-7781 10.20 --condition good --serial 0417-22 --owner shop --by MK")
    assert bench.ask("part show PO-7781 10.20")["condition"] == "good"


def test_where_a_part_came_out_of_is_put_right_for_one_part_only(bench: Bench) -> None:
    bench.off("10.20", "10.30")
    said = bench.refused("part note PO-7781 10.20 10.30 --out-of 10.35 --by MK")
    assert "Only one part" in said
    assert "came out of ring 10.30 already" in bench.refused("part note PO-7781 10.20 --out-of 10.30 --by MK")
    bench.do("part note PO-7781 10.20 --out-of 10.35 --by MK")
    assert bench.ask("part show PO-7781 10.35")["out_of"] == "10.35"


def test_many_parts_are_put_in_a_place_in_one_act(bench: Bench) -> None:
    bench.do("shop place 'RACK 1' --by OF")
    bench.off("10.20", "10.30")
    before = bench.records()
    bench.do("part put PO-7781 'RACK 1' 10.20 10.30 --by MK")
    assert bench.records() == before + 1
    assert {row["place"] for row in bench.ask("part list PO-7781")} == {"RACK 1"}


def test_a_carrier_is_put_in_a_place_and_parts_in_the_carrier(bench: Bench) -> None:
    out = bench.home / "c.pdf"
    number = bench.ask(f"label roll 1 --letter C --out '{out}' --by OF")["numbers"][0]
    bench.do(f"shop carrier {number} --name 'basket 4' --by OF")
    bench.do("shop place 'WASH 2' --by OF")
    bench.off("10.20")
    bench.do(f"part put PO-7781 {number}/7 10.20 --by MK")
    bench.do(f"part put PO-7781 'WASH 2' {number} --by MK")
    assert bench.ask("part show PO-7781 10.20")["place"] == f"{number}/7"
    assert bench.points("record kept that does not fit") == []


def test_a_fitted_part_is_not_put_on_a_rack(bench: Bench) -> None:
    bench.do("shop place 'RACK 1' --by OF")
    (part,) = bench.off("10.20")
    bench.write("part.fitted", part, "@10.20")
    said = bench.refused("part put PO-7781 'RACK 1' 10.20 --by MK")
    assert "is fitted in bowl 10.20" in said and "part out" in said


def test_one_bag_holds_the_screws_of_two_places_and_balances_as_one(bench: Bench) -> None:
    bench.do("hardware count PO-7781 10.90 10.91 --found 10 --by MK")
    bench.do("hardware move PO-7781 10.90 --put-in 8 --by AS")
    assert "10.90" in bench.points("hardware does not balance")
    bench.do("hardware move PO-7781 10.91 --put-in 2 --by AS")
    left = bench.points("hardware does not balance")
    assert "10.90" not in left and "10.91" not in left


def test_only_hardware_is_counted_and_never_less_than_none(bench: Bench) -> None:
    assert "for a part" in bench.refused("hardware count PO-7781 10.20 --found 1 --by MK")
    assert "is no count" in bench.refused("hardware count PO-7781 10.90 --found -1 --by MK")
    assert "begins with H" in bench.refused(
        f"hardware count PO-7781 10.90 --found 8 --bag {bench.tag(bench.off('10.20')[0])} --by MK"
    )
