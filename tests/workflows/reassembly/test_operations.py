"""Operations of a route: one after the other, with what is written down, and never on a part that waits."""

from __future__ import annotations

import pytest

from teardown_app.domain.bill.bill import Bill, Line, Operation, Route
from tests.workflows.reassembly.bench import MORNING, ORDER, Bench

VALUES = "--value bath=B2 --value 'time=15 min'"


def washed(bench: Bench, *keys: str, times: int = 1) -> None:
    """Does the first operations of the route on parts."""
    bench.do(f"part done PO-7781 {' '.join(keys)} {VALUES} --by CL")
    for _ in range(times - 1):
        bench.do(f"part done PO-7781 {' '.join(keys)} --by CL")


def test_a_route_is_done_in_order_and_then_the_part_can_be_released(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.judged(part)
    bench.do("part start PO-7781 10.20 --by CL")
    assert "Next: polish" in bench.do(f"part done PO-7781 10.20 {VALUES} --by CL")
    bench.do("part done PO-7781 10.20 --by CL")
    answer = bench.ask("part done PO-7781 10.20 --by CL")
    # the route's wait is 2 h, no source: the bill of these tests is invented
    assert answer["parts"] == [{"part": part, "operation": "dry", "next": "", "rests_h": "2.0"}]
    bench.read(part)
    assert "rests after Dry for another 2.0 h" in bench.refused("part release PO-7781 10.20 --by OF")
    bench.clock("2026-03-14T10:00:01+01:00")
    bench.do("part release PO-7781 10.20 --by OF")


def test_parts_at_the_same_operation_are_one_record(bench: Bench) -> None:
    bench.off("10.20", "10.30")
    before = bench.records()
    bench.do("part start PO-7781 10.20 10.30 --by CL")
    washed(bench, "10.20", "10.30")
    assert bench.records() == before + 2


def test_parts_at_different_operations_are_not_one_act(bench: Bench) -> None:
    bench.off("10.20", "10.30")
    washed(bench, "10.20")
    said = bench.refused(f"part done PO-7781 10.20 10.30 {VALUES} --by CL")
    assert "10.20 at polish" in said and "10.30 at degrease" in said


def test_what_is_not_next_is_refused_and_the_next_is_named(bench: Bench) -> None:
    bench.off("10.20")
    assert "Next is degrease" in bench.refused("part done PO-7781 10.20 --operation dry --by CL")
    assert "route wash has no weld" in bench.refused("part start PO-7781 10.20 --operation weld --by CL")
    washed(bench, "10.20")
    said = bench.refused("part done PO-7781 10.20 --operation degrease --by CL")
    assert "degrease is over already" in said and "give the pass: 2" in said


def test_a_part_without_a_route_needs_nothing_done(bench: Bench) -> None:
    bench.off("10.35")
    assert "pin 10.35 has no route" in bench.refused("part start PO-7781 10.35 --by CL")


def test_what_the_route_asks_for_is_written_down_at_start_or_end(bench: Bench) -> None:
    bench.off("10.20")
    said = bench.refused("part done PO-7781 10.20 --value bath=B2 --by CL")
    assert "written down: time" in said
    bench.do("part start PO-7781 10.20 --value bath=B2 --by CL")
    bench.do("part done PO-7781 10.20 --value 'time=15 min' --by CL")
    assert "'bath'" in bench.refused("part start PO-7781 10.20 --value bath --by CL")


def test_a_started_operation_is_stopped_and_started_again_before_it_is_done(bench: Bench) -> None:
    bench.off("10.20")
    assert "degrease is not started" in bench.refused("part stop PO-7781 10.20 --by CL")
    bench.do("part start PO-7781 10.20 --by CL")
    assert "started already" in bench.refused("part start PO-7781 10.20 --by CL")
    bench.do("part stop PO-7781 10.20 --note 'bath too cold' --by CL")
    assert "was stopped" in bench.refused(f"part done PO-7781 10.20 {VALUES} --by CL")
    bench.do("part start PO-7781 10.20 --by CL")
    washed(bench, "10.20")


def test_skipping_needs_the_right_to_release_and_its_reason(bench: Bench) -> None:
    bench.off("10.20")
    assert "CL has no right to release" in bench.refused("part skip PO-7781 10.20 --why x --by CL")
    assert "needs its reason" in bench.refused("part skip PO-7781 10.20 --why ' ' --by OF")
    assert "Next: polish" in bench.do("part skip PO-7781 10.20 --why 'came clean' --by OF")


def test_the_next_operation_waits_until_the_rest_is_over(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    washed(bench, "10.20", times=3)
    bench.clock("2026-03-14T09:00:00+01:00")
    said = bench.refused(f"part done PO-7781 10.20 --operation degrease --pass 2 {VALUES} --by CL")
    assert "rests after Dry for another 1.0 h" in said and "part wait-over" in said
    assert "no right to release" in bench.refused("part wait-over PO-7781 10.20 --why x --by CL")
    bench.do("part wait-over PO-7781 10.20 --why 'dried since Friday' --by OF")
    assert "rests for nothing" in bench.refused("part wait-over PO-7781 10.20 --why x --by OF")
    bench.do(f"part done PO-7781 10.20 --operation degrease --pass 2 {VALUES} --by CL")


def test_a_clock_that_jumped_ends_no_wait(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    washed(bench, "10.20", times=3)
    bench.judged(part)
    bench.read(part)
    steady = 1_000_000
    bench.clock(f"{MORNING};{steady}")
    bench.do("job received PO-7781 30 --as 'not received' --why x --by MK")
    bench.clock(f"2026-03-15T08:00:00+01:00;{steady + 60}")
    bench.do("job received PO-7781 30 --as 'received complete' --by MK")
    assert "rests after Dry for another 2.0 h" in bench.refused("part release PO-7781 10.20 --by OF")


def test_a_second_pass_needs_the_first_and_spoils_the_reading(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.judged(part)
    said = bench.refused(f"part done PO-7781 10.20 --operation degrease --pass 2 {VALUES} --by CL")
    assert "pass 1 of degrease is not over" in said
    washed(bench, "10.20", times=3)
    bench.clock("2026-03-14T11:00:00+01:00")
    bench.read(part)
    bench.do("part release PO-7781 10.20 --by OF")
    assert bench.points("check due") == []
    bench.do(f"part done PO-7781 10.20 --operation degrease --pass 2 {VALUES} --by CL")
    assert bench.points("check due") == ["10.20"]
    assert "pass 2 of degrease is over" in bench.refused(
        f"part done PO-7781 10.20 --operation degrease --pass 2 {VALUES} --by CL"
    )


def test_work_that_cannot_be_taken_back_waits_for_the_customers_answer(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    washed(bench, "10.20")
    finding = bench.write("finding.noted", part, word="pitting", cause="wear", covered=False)
    said = bench.refused("part done PO-7781 10.20 --by CL")
    assert "polish cannot be taken back" in said and "pitting" in said and "not asked yet" in said
    bench.write("approval.given", finding, reference="mail 2026-03-13", **{"as": "asked"})
    assert "mail 2026-03-13" in bench.refused("part start PO-7781 10.20 --by CL")
    bench.write("approval.given", finding, reference="mail 2026-03-14", **{"as": "approved"})
    bench.do("part done PO-7781 10.20 --by CL")


def test_work_that_can_be_taken_back_goes_on_while_the_customer_is_asked(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.write("finding.noted", part, word="pitting", cause="wear", covered=False)
    washed(bench, "10.20")


def test_a_part_on_hold_is_not_worked_on(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.do(f"part hold PO-7781 {bench.tag(part)} --why 'lot report' --by MK")
    said = bench.refused(f"part done PO-7781 10.20 {VALUES} --by CL")
    assert f"{bench.tag(part)} bowl 10.20 is on hold: lot report" in said and "part lift" in said
    bench.do(f"part lift PO-7781 {bench.tag(part)} --why 'is in' --by OF")
    washed(bench, "10.20")


@pytest.mark.parametrize("word", ["scrap", "spare", "return unrepaired"])
def test_a_part_that_does_not_go_on_is_not_worked_on(bench: Bench, word: str) -> None:
    (part,) = bench.off("10.20")
    bench.judged(part, word=word)
    assert f"dispositioned {word}" in bench.refused(f"part done PO-7781 10.20 {VALUES} --by CL")


def test_a_fitted_part_is_taken_out_before_it_is_worked_on(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    bench.write("part.fitted", part, "@10.20")
    said = bench.refused(f"part done PO-7781 10.20 {VALUES} --by CL")
    assert "is fitted in bowl 10.20" in said and "part out" in said


def test_an_operation_that_harms_the_material_is_refused(bench: Bench) -> None:
    bench.off("10.30")
    washed(bench, "10.30")
    said = bench.refused("part done PO-7781 10.30 --by CL")
    assert "AlMgSi1" in said and "polish" in said and "skip it by name" in said
    assert "Next: dry" in bench.do("part skip PO-7781 10.30 --why 'aluminium' --by OF")


def test_a_new_part_goes_the_route_for_new_parts(bench: Bench) -> None:
    bench.brought("10.20", "P-1020")
    answer = bench.ask("part done PO-7781 10.20 --by CL")
    assert answer["parts"][0]["operation"] == "degrease" and answer["parts"][0]["next"] == ""


def test_a_part_through_its_route_is_read_and_released(bench: Bench) -> None:
    bench.off("10.50")
    bench.do("part done PO-7781 10.50 --by CL")
    assert "is through its route rinse" in bench.refused("part done PO-7781 10.50 --by CL")


def test_a_further_pass_names_its_operation(bench: Bench) -> None:
    bench.off("10.50")
    bench.do("part done PO-7781 10.50 --by CL")
    assert "Name the operation: rinse" in bench.refused("part done PO-7781 10.50 --pass 2 --by CL")


def test_a_part_handed_over_is_not_worked_on_nor_released(bench: Bench) -> None:
    part, pin = bench.off("10.20", "10.35")
    bench.judged(part, pin)
    bench.write("goods.handed_over", part, pin, to="J-OTHER", consent="mail 3", quantity=1)
    assert "handed over to job J-OTHER" in bench.refused(f"part done PO-7781 10.20 {VALUES} --by CL")
    assert "was handed over" in bench.refused("part release PO-7781 10.35 --by OF")


def test_a_conceded_question_no_longer_stops_the_work(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    washed(bench, "10.20")
    finding = bench.write("finding.noted", part, word="pitting", cause="wear", covered=False)
    key = f"approval waiting|{part}|{finding}"
    bench.do(f"job concede PO-7781 '{key}' --why 'by telephone' --reference 'call 4' --by OF")
    bench.do("part done PO-7781 10.20 --by CL")


def test_a_name_that_means_two_parts_is_refused(bench: Bench) -> None:
    one, other = bench.off("10.50", "10.50")
    said = bench.refused("part done PO-7781 10.50 --by CL")
    assert bench.tag(one) in said and bench.tag(other) in said and "cover 10.50 has 2 parts" in said
    tag = bench.tag(one)
    bench.write("part.tagged", other, number=tag)
    assert f"{tag} is on 2 parts" in bench.refused(f"part done PO-7781 {tag} --by CL")


def test_ending_a_wait_needs_its_reason(bench: Bench) -> None:
    bench.off("10.20")
    washed(bench, "10.20", times=3)
    assert "needs its reason" in bench.refused("part wait-over PO-7781 10.20 --why ' ' --by OF")


# recorded done, and it does not count


def timed(time: str = "30 min", *record: str) -> Bill:
    """A cover that is soaked for a time and then rinsed."""
    soak = Operation("soak", "Soak", trade="clean", time=time, record=record)
    route = Route("soak", operations=(soak, Operation("rinse", "Rinse", trade="rinse")))
    return Bill("COVER", "A", lines=(Line("10", "", 1, "P-10", "cover", routes=("soak",)),), routes={"soak": route})


@pytest.fixture
def soaked(bench: Bench) -> str:
    """The cover of another order is recorded as soaked by a tablet that asked for nothing; it does not count."""
    bench.job(timed("30 min", "bath"), order="PO-8")
    (part,) = bench.off("10", order="PO-8")
    bench.write("disposition.given", part, order="PO-8", **{"as": "use as is"})
    bench.write("operation.done", part, order="PO-8", route="soak", operation="soak", **{"pass": 1})
    return part


def test_what_was_done_without_a_beginning_is_done_once_more(bench: Bench, soaked: str) -> None:
    """Both what it took and what is written down are asked again: what does not count proves nothing."""
    assert "written down: bath" in bench.refused("part done PO-8 10 --by CL")
    assert "was not begun" in bench.refused("part done PO-8 10 --value bath=B2 --by CL")
    assert "Next: rinse" in bench.do("part done PO-8 10 --value bath=B2 --began 07:30 --by CL")
    bench.do("part done PO-8 10 --by CL")
    bench.do("part release PO-8 10 --by OF")


def test_what_was_done_without_a_beginning_is_begun_and_ended(bench: Bench, soaked: str) -> None:
    bench.do("part start PO-8 10 --value bath=B2 --by CL")
    bench.do("part done PO-8 10 --by CL")
    assert "through its route" not in bench.do("part done PO-8 10 --by CL")
    bench.do("part release PO-8 10 --by OF")


def test_what_was_done_without_a_beginning_is_skipped_by_name(bench: Bench, soaked: str) -> None:
    assert "pass 1 of soak is not over" in bench.refused(
        "part done PO-8 10 --operation soak --pass 2 --value bath=B2 --began 07:30 --by CL"
    )
    assert "Next: rinse" in bench.do("part skip PO-8 10 --operation soak --why 'new from stock' --by OF")
    bench.do("part done PO-8 10 --by CL")
    bench.do("part release PO-8 10 --by OF")


def test_what_was_written_down_at_a_beginning_needs_not_be_written_again(bench: Bench) -> None:
    """What was written on a *done* that does not count is: only it itself and its beginnings are asked."""
    bench.job(timed("30 min", "bath", "operator"), order="PO-8")
    (part,) = bench.off("10", order="PO-8")
    bench.do("part start PO-8 10 --value bath=B2 --by CL")
    body = {"route": "soak", "operation": "soak", "pass": 1, "values": {"hours": "1"}}
    bench.write("operation.done", part, order="PO-8", **body)
    assert "written down: operator." in bench.refused("part done PO-8 10 --by CL")
    bench.do("part done PO-8 10 --value operator=CL --by CL")
    assert "is through its route" not in bench.do("part done PO-8 10 --by CL")


def test_a_blank_is_not_written_down(bench: Bench) -> None:
    bench.off("10.20")
    assert "bath" in bench.refused("part done PO-7781 10.20 --value bath=' ' --value 'time=15 min' --by CL")


@pytest.mark.parametrize("said", [None, 5, ["B2"]])
@pytest.mark.parametrize("word", ["started", "done"])
def test_what_is_written_down_is_text(bench: Bench, word: str, said: object) -> None:
    """A record of another program (records.md, *Fields of rules 2*): it does not fit, and has no effect."""
    (part,) = bench.off("10.20")
    body = {"route": "wash", "operation": "degrease", "pass": 1, "values": {"bath": said, "time": "15 min"}}
    bench.write(f"operation.{word}", part, **body)
    (point,) = [one for one in bench.ask_points() if one["kind"] == "record kept that does not fit"]
    assert "is no text" in point["wrong"]
    washed(bench, "10.20", times=2)


def test_a_blank_of_another_program_is_as_if_it_were_not_there(bench: Bench) -> None:
    """It fits; what is asked is asked still."""
    (part,) = bench.off("10.20")
    body = {"route": "wash", "operation": "degrease", "pass": 1, "values": {"bath": " ", "time": "15 min"}}
    bench.write("operation.started", part, **body)
    assert bench.points("record kept that does not fit") == []
    assert "written down: bath." in bench.refused("part done PO-7781 10.20 --by CL")


def test_what_was_begun_earlier_is_said_as_a_watch_says_it(bench: Bench) -> None:
    """MORNING is 8 o'clock at +01:00 (`bench.py`); a record holds the whole time."""
    bench.off("10.20")
    for said, wrong in (("soon", "is no time"), ("14", "is no time"), ("23:59", "is still to come")):
        assert wrong in bench.refused(f"part done PO-7781 10.20 {VALUES} --began '{said}' --by CL")
    bench.do(f"part done PO-7781 10.20 {VALUES} --began 7.45 --by CL")
    bench.do(f"part done PO-7781 10.20 --operation degrease --pass 2 {VALUES} --began '{MORNING[:10]} 7:50' --by CL")
    with bench.open() as workshop:
        records = workshop.find_job(ORDER).job.of_kind("operation.done")
    assert [one.body["began"] for one in records] == [
        f"{MORNING[:10]}T{clock}:00{MORNING[-6:]}" for clock in ("07:45", "07:50")
    ]
