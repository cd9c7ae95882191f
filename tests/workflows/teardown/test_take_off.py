"""A part comes off: its place, its label, its condition, where it is put."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.pump import PUMP


def roll(bench: Bench, count: int = 4, letter: str = "P") -> list[str]:
    """Numbers printed ahead."""
    out = bench.home / "roll.pdf"
    return list(bench.ask(f"label roll {count} --letter {letter} --out '{out}' --by OF")["numbers"])


def place(bench: Bench) -> None:
    bench.do("shop place 'RACK 1' --by OF")


def test_a_part_gets_a_label_from_the_roll_with_condition_and_place(bench: Bench) -> None:
    place(bench)
    number = roll(bench)[0]
    bench.do(f"part off PO-7781 10.20 --number {number.lower()} --condition good --place 'RACK 1/B3' --by MK")
    row = bench.ask("part list PO-7781")[0]
    assert (row["tag"], row["out_of"], row["place"], row["condition"]) == (number, "10.20", "RACK 1/B3", "good")
    assert row["origin"] == "as received"


def test_a_new_number_is_recorded_before_it_is_used(bench: Bench) -> None:
    first = bench.ask("part off PO-7781 10.20 --new-number --by MK")["number"]
    second = bench.ask("part off PO-7781 10.30 --new-number --by MK")["number"]
    assert first != second and first[0] == second[0] == "P"
    assert first[1:5] == second[1:5]


def test_a_small_part_needs_no_label_but_a_place(bench: Bench) -> None:
    said = bench.refused("part off PO-7781 10.20 --by MK")
    assert "needs a place to lie" in said and "tray or bag" in said
    place(bench)
    bench.do("part off PO-7781 10.20 --place 'RACK 1/A1' --by MK")
    assert bench.ask("part show PO-7781 10.20")["place"] == "RACK 1/A1"


def test_a_place_nobody_knows_is_refused_and_says_how_to_register(bench: Bench) -> None:
    place(bench)
    said = bench.refused("part off PO-7781 10.20 --place SHELF --by MK")
    assert "There is no place SHELF" in said and "RACK 1" in said and "shop place" in said


def test_a_number_is_never_on_two_parts(bench: Bench) -> None:
    number = roll(bench)[0]
    bench.do(f"part off PO-7781 10.20 --number {number} --by MK")
    said = bench.refused(f"part off PO-7781 10.30 --number {number} --by MK")
    assert f"{number} is on {number} bowl 10.20 already" in said and "next label" in said


def test_a_number_of_another_job_is_refused_with_that_job(bench: Bench) -> None:
    number = roll(bench)[0]
    other = bench.job(PUMP, order="PO-9")
    bench.do(f"part off PO-9 10.20 --number {number} --by MK")
    said = bench.refused(f"part off PO-7781 10.20 --number {number} --by MK")
    assert other in said and "bowl 10.20" in said


def test_labels_for_other_things_and_slips_of_the_pen_are_told_apart(bench: Bench) -> None:
    bag = roll(bench, 1, "H")[0]
    said = bench.refused(f"part off PO-7781 10.20 --number {bag} --by MK")
    assert "is a label for" in said and "begins with P" in said
    number = roll(bench)[0]
    wrong = number[:5] + ("1" if number[5] != "1" else "2") + number[6:]
    assert "no number of ours" in bench.refused(f"part off PO-7781 10.20 --number {wrong} --by MK")


def test_one_place_gives_one_part(bench: Bench) -> None:
    bench.do("part off PO-7781 10.20 --new-number --by MK")
    said = bench.refused("part off PO-7781 10.20 --new-number --by MK")
    assert "A part came out of bowl 10.20 already" in said and "part same" in said and "as extra" in said


def test_screws_and_seals_are_no_parts_to_take_off(bench: Bench) -> None:
    assert "for counted hardware" in bench.refused("part off PO-7781 10.90 --new-number --by MK")
    assert "for a consumable" in bench.refused("part off PO-7781 10.40 --new-number --by MK")
    assert "is no place of this tool" in bench.refused("part off PO-7781 99 --new-number --by MK")


def test_what_is_said_not_to_be_there_is_not_taken_off(bench: Bench) -> None:
    bench.do("job received PO-7781 30 --as 'not received' --why 'packing list' --by MK")
    said = bench.refused("part off PO-7781 30.10 --new-number --by MK")
    assert "heater 30.10 is said to be not received" in said and "job received" in said


def test_an_extra_part_is_a_foreign_piece_until_it_goes(bench: Bench) -> None:
    bench.do("part off PO-7781 --extra --new-number --note 'yellow bracket' --by MK")
    assert len(bench.points("foreign piece")) == 1
    tag = bench.ask("part list PO-7781")[0]["tag"]
    bench.write("disposition.given", bench.ask("part list PO-7781")[0]["part"], **{"as": "return unrepaired"})
    assert bench.points("foreign piece") == []
    assert "belongs to no place" in bench.refused("part off PO-7781 10.20 --extra --new-number --by MK")
    assert tag


def test_a_part_that_was_fitted_comes_out_before_it_comes_off(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.write("part.fitted", part, "@10.20")
    said = bench.refused("part off PO-7781 10.20 --new-number --by MK")
    assert "is fitted there" in said and "part out" in said


def test_what_closes_over_it_comes_out_first(bench: Bench) -> None:
    (cover,) = bench.off("10.50")
    bench.write("part.fitted", cover, "@10.50")
    said = bench.refused("part off PO-7781 10.20 --new-number --by MK")
    assert "bowl 10.20 is closed over by cover 10.50" in said and "part out" in said


def test_somebody_without_the_right_records_nothing(bench: Bench) -> None:
    said = bench.refused("part off PO-7781 10.20 --new-number --by XX")
    assert "XX has no right to record" in said
    assert "Say who does it" in bench.refused("part off PO-7781 10.20 --new-number")
