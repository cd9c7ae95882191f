"""The job as a whole: amended, conceded, signed, taken back, closed, reopened; people and their rights."""

from __future__ import annotations

from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.pump import PUMP


def all_out_of_scope(bench: Bench) -> None:
    """Nothing is asked for any more: the shortest way to a job that can be closed."""
    keys = [row["position"] for row in bench.ask("job places PO-7781") if "." not in row["position"]]
    said = "--as 'out of scope' --why 'agreed by mail' --reference 'mail 2026-03-12'"
    bench.do(f"job received PO-7781 {' '.join(keys)} {said} --by OF")
    bench.do("temporary out PO-7781 10.95 --by AS")
    bench.do("temporary in PO-7781 10.95 --by AS")


def test_the_opening_is_amended_with_a_reason(bench: Bench) -> None:
    bench.do("job amend PO-7781 --due 2026-06-12 --why 'customer moved it' --by OF")
    assert bench.ask("job show PO-7781")["due"] == "2026-06-12"
    for other in ("soon", "20260612"):
        assert "is no day" in bench.refused(f"job amend PO-7781 --due {other} --why x --by OF")
    assert "Nothing is to be changed" in bench.refused("job amend PO-7781 --why x --by OF")
    assert "has no option steam" in bench.refused("job amend PO-7781 --option steam --why x --by OF")
    assert "no right to do office work" in bench.refused("job amend PO-7781 --due 2026-06-12 --why x --by MK")


def test_an_option_of_the_tool_brings_its_places(bench: Bench) -> None:
    assert "40.10" not in bench.points("missing")
    bench.do("job amend PO-7781 --option cooled --why 'seen on the plate' --by OF")
    assert "40.10" in bench.points("missing")


def test_a_point_is_conceded_with_the_customers_reference_until_something_changes(bench: Bench) -> None:
    key = "missing|30.10|"
    assert "There is no open point" in bench.refused("job concede PO-7781 nothing --why x --reference y --by OF")
    assert "no right to concede" in bench.refused(f"job concede PO-7781 '{key}' --why x --reference y --by MK")
    assert "customer's reference" in bench.refused(f"job concede PO-7781 '{key}' --why x --reference '' --by OF")
    bench.do(f"job concede PO-7781 '{key}' --why 'spare follows' --reference 'mail 2026-03-14' --by OF")
    assert "30.10" not in bench.points("missing")
    assert "conceded already" in bench.refused(f"job concede PO-7781 '{key}' --why x --reference y --by OF")
    (part,) = bench.off("30.10")
    bench.write("part.fitted", part, "@30.10")
    bench.write("part.taken_out", part, "@30.10")
    assert "30.10" in bench.points("missing"), "what lay behind the concession has changed"


def test_what_must_be_out_before_power_is_never_conceded(bench: Bench) -> None:
    key = "temporary in or out wrongly|10.95|running"
    said = bench.refused(f"job concede PO-7781 '{key}' --why x --reference y --by OF")
    assert "never conceded" in said


def test_a_signature_is_due_again_when_what_it_covered_changes(bench: Bench) -> None:
    bench.do("job sign PO-7781 --position 10 --meaning inspected --by OF")
    assert bench.points("sign again") == []
    bench.do("hardware count PO-7781 10.90 --found 8 --by MK")
    assert bench.points("sign again") == ["10"]
    bench.do("job sign PO-7781 --position 10 --meaning inspected --by OF")
    assert bench.points("sign again") == []
    assert "no right to sign" in bench.refused("job sign PO-7781 --meaning inspected --by MK")
    assert "is no place of this tool" in bench.refused("job sign PO-7781 --position 99 --meaning inspected --by OF")


def test_a_record_is_taken_back_and_the_count_it_replaced_holds_again(bench: Bench) -> None:
    bench.do("hardware count PO-7781 10.90 --found 8 --by MK")
    ref = bench.ask("hardware count PO-7781 10.90 --found 7 --by MK")["recorded"][0]
    assert "Taking back needs its reason" in bench.refused(f"job take-back PO-7781 {ref} --why ' ' --by MK")
    back = bench.ask(f"job take-back PO-7781 {ref} --why miscounted --by MK")["recorded"][0]
    rows = bench.ask("job log PO-7781 --position 10.90")
    assert [row["effect"] for row in rows] == ["holds", "voided", "holds"]
    assert "You took it back already" in bench.refused(f"job take-back PO-7781 {ref} --why x --by MK")
    assert "A taking back is not taken back" in bench.refused(f"job take-back PO-7781 {back} --why x --by MK")


def test_a_hold_is_taken_back_only_with_the_right_to_lift_it(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    ref = bench.ask("part hold PO-7781 10.20 --why 'ask first' --by MK")["recorded"][0]
    assert "no right to release" in bench.refused(f"job take-back PO-7781 {ref} --why x --by CL")
    assert "no right to release" in bench.refused(f"job take-back PO-7781 {ref} --why 'wrong part' --by MK")
    bench.do(f"job take-back PO-7781 {ref} --why 'wrong part' --by OF")
    assert bench.points("hold") == []
    assert part


def test_the_opening_is_not_taken_back(bench: Bench) -> None:
    ref = bench.ask("job log PO-7781")[0]["record"]
    assert "is not taken back" in bench.refused(f"job take-back PO-7781 {ref} --why x --by OF")
    assert "There is no record" in bench.refused("job take-back PO-7781 12345678 --why x --by OF")


def test_a_job_closes_only_when_nothing_is_open(bench: Bench) -> None:
    said = bench.refused("job close PO-7781 --by OF")
    assert "open points" in said and "And " in said and "job open-points" in said
    all_out_of_scope(bench)
    bench.do("job close PO-7781 --by OF")
    assert bench.ask("job show PO-7781")["closed"]
    said = bench.refused("part off PO-7781 10.20 --new-number --by MK")
    assert "is closed" in said and "Reopen" in said
    assert "is closed" in bench.refused("job close PO-7781 --by OF")


def test_a_closed_job_is_reopened_with_a_reason(bench: Bench) -> None:
    assert "is not closed" in bench.refused("job reopen PO-7781 --why x --by OF")
    all_out_of_scope(bench)
    bench.do("job close PO-7781 --by OF")
    bench.do("job reopen PO-7781 --why 'came back with a drip' --by OF")
    assert not bench.ask("job show PO-7781")["closed"]


def test_a_hold_needs_its_reason_and_the_right_to_lift(bench: Bench) -> None:
    bench.off("10.20")
    assert "needs its reason" in bench.refused("part hold PO-7781 10.20 --why ' ' --by MK")
    bench.do("part hold PO-7781 10.20 --why 'bearing report' --by MK")
    assert bench.points("hold") == ["10.20"]
    assert "no right to release" in bench.refused("part lift PO-7781 10.20 --why x --by MK")
    bench.do("part lift PO-7781 10.20 --why 'report is in' --by OF")
    assert bench.points("hold") == []
    assert "not on hold" in bench.refused("part lift PO-7781 10.20 --why x --by OF")


def test_rights_are_given_by_the_office_and_end_on_their_day(bench: Bench) -> None:
    assert "no right to do office work" in bench.refused("shop person NN --right record --by MK")
    bench.do("shop person NN --right record --until 2026-03-13 --by OF")
    assert "NN has no right" in bench.refused("part off PO-7781 10.20 --new-number --by NN")
    bench.do("shop person NN --right record --until 2026-03-14 --by OF")
    bench.do("part off PO-7781 10.20 --new-number --by NN")
    bench.do("shop leave NN --by OF")
    assert "NN has no right" in bench.refused("part off PO-7781 10.30 --new-number --by NN")
    assert bench.ask("part list PO-7781")[0]["out_of"] == "10.20", "what was recorded before stands"
    assert "is no code" in bench.refused("shop person 'Meyer, K' --right record --by OF")


def test_jobs_and_parts_are_found_by_words_across_jobs(bench: Bench) -> None:
    bench.job(PUMP, order="PO-9")
    bench.off("10.20")
    rows = bench.ask("search bowl 10.20")
    assert {row["table"] for row in rows} == {"tags", "positions"}
    assert "stands for the jobs" not in bench.do("job show PO-9")
    assert "There is no job PO-1" in bench.refused("job show PO-1")


def test_what_only_looks_answers_without_a_person(bench: Bench) -> None:
    for words in ("job list", "job show PO-7781", "job places PO-7781", "job log PO-7781 --last 20", "shop people"):
        assert bench.do(words)


def test_nobody_closes_or_reopens_a_job_by_taking_back(bench: Bench) -> None:
    all_out_of_scope(bench)
    signature, closing = bench.ask("job close PO-7781 --by OF")["recorded"]
    bench.do("job reopen PO-7781 --why 'one more look' --by OF")
    for ref, what in ((closing, "A closing"), (signature, "A signature")):
        assert f"{what} is not taken back" in bench.refused(f"job take-back PO-7781 {ref} --why x --by OF")
    assert not bench.ask("job show PO-7781")["closed"]


def test_a_lifting_is_taken_back_with_the_right_to_lift(bench: Bench) -> None:
    bench.off("10.20")
    bench.do("part hold PO-7781 10.20 --why x --by MK")
    lifted = bench.ask("part lift PO-7781 10.20 --why y --by OF")["recorded"][0]
    assert "no right to release" in bench.refused(f"job take-back PO-7781 {lifted} --why x --by MK")
    bench.do(f"job take-back PO-7781 {lifted} --why z --by OF")
    assert bench.points("hold") == ["10.20"]
