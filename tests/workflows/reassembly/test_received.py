"""Received configuration: what was not received is not asked for, and what came off was received."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench


def test_many_places_are_said_in_one_act_and_an_assembly_counts_for_all_beneath(bench: Bench) -> None:
    before = bench.records()
    bench.do("job received PO-7781 30 20/2 10.35 --as 'not received' --why 'packing list' --by MK")
    assert bench.records() == before + 1
    missing = bench.points("missing")
    assert not {"30.10", "20/2.10", "20/2.20", "10.35"} & set(missing)
    assert "20/2.90" not in bench.points("hardware does not balance")
    assert {"10.20", "20/1.10"} <= set(missing)


def test_what_turned_up_after_all_is_asked_for_again(bench: Bench) -> None:
    bench.do("job received PO-7781 30 --as 'not received' --why 'packing list' --by MK")
    bench.do("job received PO-7781 30 --as 'received complete' --by MK")
    assert "30.10" in bench.points("missing")


def test_left_fitted_holds_until_the_part_comes_off(bench: Bench) -> None:
    bench.do("job received PO-7781 20/1 --as 'left fitted' --why 'not in the order' --by MK")
    assert "20/1.10" not in bench.points("missing")
    bench.off("20/1.10")
    assert "20/1.10" in bench.points("missing")


def test_everything_but_received_complete_needs_its_reason(bench: Bench) -> None:
    said = bench.refused("job received PO-7781 30 --as 'received short' --by MK")
    assert "Received short needs its reason" in said


def test_a_place_whose_part_came_off_was_received(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    said = bench.refused("job received PO-7781 10 --as 'not received' --why x --by MK")
    assert bench.tag(part) in said and "bowl 10.20" in said and "bowl assembly 10 cannot be not received" in said
    said = bench.refused("job received PO-7781 10 --as 'left fitted' --why x --by MK")
    assert bench.tag(part) in said


def test_a_place_that_was_touched_stays_in_scope_until_its_hole_is_conceded(bench: Bench) -> None:
    (part,) = bench.off("10.35")
    bench.judged(part, word="scrap")
    bench.do("job received PO-7781 10.35 --as 'out of scope' --why 'customer fits his own' --by MK")
    assert "10.35" in bench.points("missing"), "a part came out of it: no word takes that away"
    key = "missing|10.35|"
    bench.do(f"job concede PO-7781 '{key}' --why 'customer fits his own' --reference 'mail 5' --by OF")
    assert "10.35" not in bench.points("missing")


def test_words_and_places_that_are_not_known_are_refused(bench: Bench) -> None:
    assert "received complete" in bench.refused("job received PO-7781 30 --as gone --why x --by MK")
    assert "came with" not in bench.refused("job received PO-7781 30 --as gone --why x --by MK")
    assert "99 is no place" in bench.refused("job received PO-7781 99 --as 'received complete' --by MK")


def test_an_option_that_the_tool_lacks_is_not_received(bench: Bench) -> None:
    said = bench.refused("job received PO-7781 40.10 --as 'received complete' --by MK")
    assert "option cooled" in said and "job amend" in said


def test_only_people_with_the_right_say_what_was_received(bench: Bench) -> None:
    assert "XX has no right to record" in bench.refused("job received PO-7781 30 --as 'received complete' --by XX")


# a place that the bill lacks


def test_an_added_bracket_gets_its_place_and_is_missing_until_it_is_fitted(bench: Bench) -> None:
    (part,) = bench.off("")
    tag = bench.tag(part)
    assert bench.points("foreign piece") == [part]
    bench.do(
        f"job add-line PO-7781 --parent 10 --part-number BR-7 --description 'bracket, hose' --number {tag} --by MK"
    )
    key = f"10.+{tag}"
    assert bench.points("foreign piece") == [] and key in bench.points("missing")
    bench.judged(part)
    bench.do(f"part release PO-7781 {key} --by OF")
    bench.do(f"part fit PO-7781 {key} --by AS")
    assert key not in bench.points("missing")
    assert not bench.points("wrong component") and not bench.points("not released")


def test_a_line_is_added_beneath_an_assembly_for_a_part_without_a_place(bench: Bench) -> None:
    (part,) = bench.off("10.35")
    line = "job add-line PO-7781 --part-number BR-7 --description bracket --by MK"
    assert "needs a part number and a description" in bench.refused(
        "job add-line PO-7781 --part-number ' ' --description x --number P7K3M0001B --by MK"
    )
    assert "pin 10.35 already" in bench.refused(f"{line} --number {bench.tag(part)}")
    assert "bowl 10.20 is no assembly" in bench.refused(f"{line} --parent 10.20 --number P7K3M0001B")
    assert "Read the label again" in bench.refused(f"{line} --number P7K3M0001C")
    assert "is the label of a job" in bench.refused(f"{line} --number J7K3M0001H")
    bench.do(f"{line} --number P7K3M0001B")
    assert "is a place already" in bench.refused(f"{line} --number P7K3M0001B")
