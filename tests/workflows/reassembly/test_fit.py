"""Fitting: the right released part, in a place that can be reached, over nothing empty. And out again."""

from __future__ import annotations

from teardown_app.domain.bill.bill import Bill, Line
from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.pump import PUMP


def ready(bench: Bench, *keys: str) -> list[str]:
    """Parts taken off, dispositioned and released; only for places without route and checks."""
    parts = bench.off(*keys)
    bench.judged(*parts)
    bench.do(f"part release PO-7781 {' '.join(keys)} --by OF")
    return parts


def bowl(bench: Bench) -> str:
    """A bowl that went through its route, released."""
    (part,) = bench.off("10.20")
    bench.judged(part)
    for _ in range(3):
        bench.do("part skip PO-7781 10.20 --why 'came clean' --by OF")
    bench.read(part)
    bench.do("part release PO-7781 10.20 --by OF")
    return part


def cover(bench: Bench) -> str:
    """A cover that was rinsed, released."""
    (part,) = bench.off("10.50")
    bench.judged(part)
    bench.do("part done PO-7781 10.50 --by CL")
    bench.do("part release PO-7781 10.50 --by OF")
    return part


def test_the_place_a_part_came_out_of_is_the_default_and_it_is_missing_no_more(bench: Bench) -> None:
    ready(bench, "10.35", "20/1.10")
    before = bench.records()
    bench.do("part fit PO-7781 10.35 20/1.10 --by AS")
    assert bench.records() == before + 2
    assert not {"10.35", "20/1.10"} & {*bench.points("missing"), *bench.points("tagged but unaccounted for")}
    bench.do("part out PO-7781 10.35 --why 'pin bent' --by AS")
    assert "10.35" in bench.points("missing") and "10.35" in bench.points("tagged but unaccounted for")


def test_an_unreleased_part_is_refused_with_all_it_lacks(bench: Bench) -> None:
    (part,) = bench.off("10.20")
    said = bench.refused("part fit PO-7781 10.20 --by AS")
    assert f"{bench.tag(part)} bowl 10.20 has no disposition" in said
    assert "Dents: due" in said and "Degrease" in said
    (pin,) = bench.off("10.35")
    bench.judged(pin)
    assert "is not released." in bench.refused("part fit PO-7781 10.35 --by AS")


def test_a_part_on_hold_since_its_release_is_refused(bench: Bench) -> None:
    (part,) = ready(bench, "10.35")
    bench.write("hold.placed", part, why="crack seen")
    assert "on hold: crack seen" in bench.refused("part fit PO-7781 10.35 --by AS")


def test_a_place_on_hold_takes_nothing(bench: Bench) -> None:
    ready(bench, "10.35")
    bench.write("hold.placed", "@10.35", why="thread damaged")
    said = bench.refused("part fit PO-7781 10.35 --by AS")
    assert "pin 10.35 is on hold: thread damaged" in said


def test_a_wrong_part_number_is_refused_and_the_right_one_named(bench: Bench) -> None:
    (rotor,) = ready(bench, "20/1.10")
    said = bench.refused("part fit PO-7781 20/1.10 --position 10.35 --by AS")
    assert "has part number P-2010" in said and "pin 10.35 takes P-1035" in said
    assert bench.tag(rotor) in said


def test_equal_parts_take_each_others_place(bench: Bench) -> None:
    ready(bench, "20/1.10")
    bench.do("part fit PO-7781 20/1.10 --position 20/2.10 --by AS")
    assert "20/2.10" not in bench.points("missing") and not bench.points("wrong component")


def test_a_filled_place_takes_no_second_part(bench: Bench) -> None:
    first, second = ready(bench, "20/1.10", "20/2.10")
    bench.do("part fit PO-7781 20/1.10 --by AS")
    said = bench.refused("part fit PO-7781 20/2.10 --position 20/1.10 --by AS")
    assert f"is filled by {bench.tag(first)} rotor 20/1.10" in said
    assert "is fitted in rotor 20/1.10 already" in bench.refused(
        f"part fit PO-7781 {bench.tag(first)} --position 20/2.10 --by AS"
    )
    one = f"part fit PO-7781 {bench.tag(second)} {bench.tag(second)} --by AS"
    bench.do(one)


def test_a_place_out_of_scope_or_left_fitted_takes_nothing(bench: Bench) -> None:
    ready(bench, "20/1.10")
    bench.do("job received PO-7781 20/2 --as 'left fitted' --why 'not ordered' --by MK")
    said = bench.refused("part fit PO-7781 20/1.10 --position 20/2.10 --by AS")
    assert "rotor 20/2.10 is said to be left fitted (not ordered)" in said and "job received" in said
    bench.do("job received PO-7781 20/2 --as 'out of scope' --why 'not ordered' --by MK")
    assert "out of scope" in bench.refused("part fit PO-7781 20/1.10 --position 20/2.10 --by AS")


def test_nothing_is_fitted_over_an_empty_place(bench: Bench) -> None:
    cover(bench)
    said = bench.refused("part fit PO-7781 10.50 --by AS")
    assert "closes over bowl 10.20, which is empty" in said
    bowl(bench)
    said = bench.refused("part fit PO-7781 10.20 10.50 --by AS")
    assert "closes over what is due: seal, lip 10.40 is not renewed" in said and "consumable renew" in said
    said = bench.refused("consumable renew PO-7781 10.40 --lot L1 --by AS")
    assert "closes over bowl 10.20, which is empty" in said
    bench.do("part fit PO-7781 10.20 --by AS")
    bench.do("consumable renew PO-7781 10.40 --lot L1 --by AS")
    answer = bench.ask("part fit PO-7781 10.50 --by AS")
    assert [one["position"] for one in answer["fitted"]] == ["10.50"]
    assert not bench.points("fitted over an empty position")


def test_the_order_within_one_act_counts(bench: Bench) -> None:
    cover(bench)
    bowl(bench)
    assert "closes over bowl 10.20, which is empty" in bench.refused("part fit PO-7781 10.50 10.20 --by AS")


def test_what_is_closed_over_is_not_reached(bench: Bench) -> None:
    part, top = bowl(bench), cover(bench)
    bench.write("part.fitted", top, "@10.50")
    assert bench.points("fitted over an empty position") == ["10.50"]
    assert "bowl 10.20 is closed over by cover 10.50" in bench.refused("part fit PO-7781 10.20 --by AS")
    bench.do("part out PO-7781 10.50 --why 'bowl first' --by AS")
    bench.do("part fit PO-7781 10.20 --by AS")
    bench.do("consumable renew PO-7781 10.40 --lot L1 --by AS")
    bench.do("part fit PO-7781 10.50 --by AS")
    said = bench.refused("part out PO-7781 10.20 --why 'scratch' --by AS")
    assert "closed over by cover 10.50" in said
    bench.do("part out PO-7781 10.50 10.20 --why 'scratch' --by AS")
    assert part and {"10.20", "10.50"} <= set(bench.points("missing"))


def test_a_unit_that_was_taken_off_whole_closes_over_all_beneath(bench: Bench) -> None:
    unit, rotor = bench.off("20/1", "20/1.10")
    bench.judged(unit, rotor)
    bench.do("part release PO-7781 20/1 20/1.10 --by OF")
    said = bench.refused("part fit PO-7781 20/1 --by AS")
    assert "rotor 20/1.10" in said and "bearing 20/1.20" in said and "bearing, rear 20/1.30" in said
    bench.do("job received PO-7781 20/1.20 20/1.30 --as 'left fitted' --why 'good' --by MK")
    bench.do("part fit PO-7781 20/1.10 --by AS")
    assert "20/1.90: not counted" in bench.refused("part fit PO-7781 20/1 --by AS")
    bench.do("hardware count PO-7781 20/1.90 --found 4 --by MK")
    bench.do("hardware move PO-7781 20/1.90 --put-in --by AS")
    bench.do("part fit PO-7781 20/1 --by AS")
    said = bench.refused("part out PO-7781 20/1.10 --why x --by AS")
    assert "rotor 20/1.10 is closed over by pump unit 20/1" in said


def test_a_new_unit_says_what_came_with_it(bench: Bench) -> None:
    (old,) = bench.off("20/1")
    bench.judged(old, word="scrap")
    new = bench.brought("20/1", "A-20", origin="exchanged")
    bench.judged(new)
    bench.do("part release PO-7781 20/1 --by OF")
    assert "which is empty" in bench.refused("part fit PO-7781 20/1 --by AS")
    assert "20/2.10 is not beneath" in bench.refused("part fit PO-7781 20/1 --came-with 20/2.10 --by AS")
    said = bench.refused("part fit PO-7781 20/1 --came-with 20/1.10 --by AS")
    assert "bearing 20/1.20, which is empty" in said and "rotor 20/1.10, which" not in said
    bench.do("part fit PO-7781 20/1 --came-with all --by AS")
    here = [key for kind in ("missing", "hardware does not balance") for key in bench.points(kind)]
    assert not [key for key in here if key.startswith("20/1")]
    bench.do("part out PO-7781 20/1 --why 'wrong unit' --by AS")
    assert "20/1" in bench.points("missing")


def test_a_unit_of_this_tool_brings_nothing_with_it(bench: Bench) -> None:
    ready(bench, "20/1")
    said = bench.refused("part fit PO-7781 20/1 --came-with all --by AS")
    assert "came out of this tool" in said


def test_within_a_matched_set_every_part_goes_back_into_its_own_place(bench: Bench) -> None:
    ready(bench, "20/1.20", "20/2.20")
    said = bench.refused("part fit PO-7781 20/1.20 --position 20/2.20 --by AS")
    assert "matched set pair" in said and "complete new set" in said
    bench.do("part fit PO-7781 20/1.20 20/2.20 --by AS")
    assert not bench.points("swapped within a matched set")


def test_a_new_set_goes_in_whole_under_one_mark(bench: Bench) -> None:
    old = bench.off("20/1.20", "20/1.30")
    bench.judged(*old, word="scrap")
    one = bench.brought("20/1.20", "P-2020", set_mark="K7")
    other = bench.brought("20/1.30", "P-2030", set_mark="K8")
    bench.judged(one, other)
    bench.do("part release PO-7781 20/1.20 20/1.30 --by OF")
    assert "matched set pair" in bench.refused("part fit PO-7781 20/1.20 20/1.30 --by AS")
    bench.write("part.noted", other, set_mark="K7")
    assert "Not accepted" in bench.refused("part release PO-7781 20/1.30 --by OF")
    bench.do("part release PO-7781 20/1.30 --accept --by OF")
    bench.do("part fit PO-7781 20/1.20 20/1.30 --by AS")
    assert not bench.points("swapped within a matched set") and not bench.points("not released")


def test_a_new_part_does_not_join_an_old_one_in_a_set(bench: Bench) -> None:
    ready(bench, "20/1.20")
    bench.do("part fit PO-7781 20/1.20 --by AS")
    new = bench.brought("20/1.30", "P-2030", set_mark="K7")
    bench.judged(new)
    bench.do("part release PO-7781 20/1.30 --by OF")
    assert "matched set pair" in bench.refused("part fit PO-7781 20/1.30 --by AS")


def test_a_borrowed_part_is_not_fitted(bench: Bench) -> None:
    part = bench.brought("10.35", "P-1035", origin="borrowed")
    bench.judged(part)
    bench.do("part release PO-7781 10.35 --by OF")
    assert "belongs to another job or owner" in bench.refused("part fit PO-7781 10.35 --by AS")


def test_a_part_that_does_not_go_back_is_not_fitted(bench: Bench) -> None:
    (part,) = ready(bench, "10.35")
    bench.judged(part, word="scrap")
    assert "dispositioned scrap" in bench.refused("part fit PO-7781 10.35 --by AS")


def test_a_part_of_another_job_is_named_with_its_job_and_place(bench: Bench) -> None:
    other = bench.job(PUMP, order="PO-9000")
    (part,) = bench.off("20/1.10", order="PO-9000")
    with bench.open() as workshop:
        tag = workshop.job(other).job.value(part, "number")
    said = bench.refused(f"part fit PO-7781 {tag} --by AS")
    assert f"{tag} belongs to job {other} (rotor 20/1.10)" in said and "Take it back there" in said


def test_only_places_for_parts_take_parts(bench: Bench) -> None:
    ready(bench, "10.35")
    said = bench.refused("part fit PO-7781 10.35 --position 10.90 --by AS")
    assert "screw, cap 10.90 is for counted hardware" in said and "hardware move" in said
    assert "no place of this tool" in bench.refused("part fit PO-7781 10.35 --position 99 --by AS")


def test_one_place_takes_one_part(bench: Bench) -> None:
    ready(bench, "10.35", "20/1.10")
    assert "One place takes one part" in bench.refused("part fit PO-7781 10.35 20/1.10 --position 10.35 --by AS")


def test_names_of_parts_are_read_as_people_type_them(bench: Bench) -> None:
    (part,) = ready(bench, "10.35")
    typed = bench.tag(part).lower()
    bench.do(f"part fit PO-7781 {typed[:5]}' '{typed[5:]} --by AS")
    assert "neither the number of a part nor a place" in bench.refused("part fit PO-7781 P7K3M0001B --by AS")
    assert "No part of bowl 10.20 is known" in bench.refused("part fit PO-7781 10.20 --by AS")


def test_taking_out_needs_a_fitted_part_and_a_reason(bench: Bench) -> None:
    ready(bench, "10.35")
    assert "is fitted nowhere" in bench.refused("part out PO-7781 10.35 --why x --by AS")
    bench.do("part fit PO-7781 10.35 --by AS")
    assert "needs its reason" in bench.refused("part out PO-7781 10.35 --why ' ' --by AS")
    assert "is not fitted in rotor 20/1.10" in bench.refused(
        "part out PO-7781 10.35 --position 20/1.10 --why x --by AS"
    )


def test_two_parts_recorded_in_one_place_are_put_right_by_taking_one_out(bench: Bench) -> None:
    first, second = ready(bench, "20/1.10", "20/2.10")
    bench.do("part fit PO-7781 20/1.10 --by AS")
    bench.write("part.fitted", second, "@20/1.10")
    bench.do(f"part out PO-7781 {bench.tag(second)} --why 'was never in' --by AS")
    assert "20/1.10" in bench.points("missing")
    bench.do(f"part out PO-7781 {bench.tag(first)} --why 'fit it anew' --by AS")
    bench.do(f"part fit PO-7781 {bench.tag(first)} --by AS")
    assert "20/1.10" not in bench.points("missing")


def test_what_can_go_in_now(bench: Bench) -> None:
    bowl(bench)
    (lid,) = bench.off("10.50", place="RACK 3-2")
    rows = {one["position"]: one for one in bench.ask("job next PO-7781 --all")}
    assert rows["10.20"]["released"] is True and "10.50" not in rows and "10.90" not in rows
    assert rows["10.35"] == {
        "position": "10.35", "description": "pin", "part": "", "tag": "", "where": "", "released": False
    }  # fmt: skip
    bench.do("part fit PO-7781 10.20 --by AS")
    rows = {one["position"]: one for one in bench.ask("job next PO-7781 --all")}
    assert "10.20" not in rows and "10.50" not in rows
    bench.do("consumable renew PO-7781 10.40 --lot L1 --expiry 2028-01-01 --by AS")
    rows = {one["position"]: one for one in bench.ask("job next PO-7781 --all")}
    assert rows["10.50"]["part"] == lid and rows["10.50"]["where"] == "RACK 3-2"
    text = bench.do("job next PO-7781 --all")
    assert f"cover 10.50: {bench.tag(lid)}, RACK 3-2, not released" in text


def test_a_scrapped_part_is_not_offered_and_an_absent_place_not_asked_for(bench: Bench) -> None:
    (part,) = bench.off("10.35")
    bench.judged(part, word="scrap")
    rows = {one["position"]: one for one in bench.ask("job next PO-7781 --all")}
    assert rows["10.35"]["part"] == "" and "40.10" not in rows


def test_a_part_that_two_tablets_fitted_in_two_places_is_taken_out_by_place(bench: Bench, second: Bench) -> None:
    (rotor,) = ready(bench, "20/1.10")
    bench.carry_to(second)
    bench.do("part fit PO-7781 20/1.10 --by AS")
    second.do("part fit PO-7781 20/1.10 --position 20/2.10 --by AS")
    second.carry_to(bench)
    assert len(bench.points("fitted twice")) == 1 and not {"20/1.10", "20/2.10"} & set(bench.points("missing"))
    said = bench.refused("part out PO-7781 20/1.10 --why x --by AS")
    assert "is recorded in rotor 20/1.10, rotor 20/2.10" in said
    bench.do("part out PO-7781 20/1.10 --position 20/2.10 --why 'was never there' --by AS")
    bench.do("part fit PO-7781 20/1.10 --by AS")
    assert "20/1.10" not in bench.points("missing")


def test_a_part_without_a_place_of_its_own_is_told_where_to_go(bench: Bench) -> None:
    part = bench.brought("", "P-1035", origin="stock")
    bench.judged(part)
    assert "is for no place of the tool" in bench.refused(f"part release PO-7781 {part} --by OF")
    assert "has no place of its own" in bench.refused(f"part fit PO-7781 {part} --by AS")
    bench.do(f"part note PO-7781 {part} --meant-for 10.35 --by MK")
    bench.do(f"part release PO-7781 {part} --by OF")
    bench.do(f"part fit PO-7781 {part} --by AS")
    assert "10.35" not in bench.points("missing")


def test_a_fitting_of_an_unreleased_part_that_was_conceded_may_be_repeated(bench: Bench) -> None:
    (part,) = bench.off("10.35")
    bench.write("part.fitted", part, "@10.35")
    bench.do(f"job concede PO-7781 'not released|{part}|' --why 'as agreed' --reference 'mail 7' --by OF")
    bench.do("part out PO-7781 10.35 --why 'grease it' --by AS")
    bench.do("part fit PO-7781 10.35 --by AS")
    assert bench.points("not released") == []


def test_what_came_with_a_unit_cannot_be_a_place_that_is_filled(bench: Bench) -> None:
    (rotor,) = ready(bench, "20/1.10")
    bench.do("part fit PO-7781 20/1.10 --by AS")
    unit = bench.brought("20/1", "A-20", origin="exchanged")
    bench.judged(unit)
    bench.do("part release PO-7781 20/1 --by OF")
    said = bench.refused("part fit PO-7781 20/1 --came-with all --by AS")
    assert f"rotor 20/1.10 is filled by {bench.tag(rotor)}" in said


def test_an_added_place_takes_its_own_part_number_only(bench: Bench) -> None:
    ready(bench, "10.35")
    bench.do("job add-line PO-7781 --part-number BR-7 --description bracket --number P7K3M0001B --by MK")
    said = bench.refused("part fit PO-7781 10.35 --position +P7K3M0001B --by AS")
    assert "bracket +P7K3M0001B takes BR-7" in said


def test_nothing_is_closed_over_what_is_still_due(bench: Bench) -> None:
    ready(bench, "10")
    bench.do("job received PO-7781 10.20 10.30 10.35 10.50 --as 'left fitted' --why x --by MK")
    said = bench.refused("part fit PO-7781 10 --by AS")
    for due in (
        "seal, lip 10.40 is not renewed.",
        "filter 10.60 is not renewed.",
        "screw, cap 10.90: not counted.",
        "screw, cap 10.91: not counted.",
        "bracket, shipping 10.95 has to be out before power.",
    ):
        assert f"closes over what is due: {due}" in said


def test_a_place_whose_part_was_recorded_elsewhere_since_can_be_filled(bench: Bench) -> None:
    first, second = ready(bench, "20/1.10", "20/2.10")
    bench.do("part fit PO-7781 20/1.10 --by AS")
    bench.write("part.fitted", first, "@20/2.10")
    bench.do(f"part fit PO-7781 {bench.tag(second)} --position 20/1.10 --by AS")
    assert not {"20/1.10", "20/2.10"} & set(bench.points("missing"))


def test_a_part_that_closes_over_an_assembly_waits_for_all_beneath_it(bench: Bench) -> None:
    ready(bench, "50", "30.10")
    said = bench.refused("part fit PO-7781 50 --by AS")
    assert "closes over heater 30.10, which is empty" in said
    bench.do("part fit PO-7781 30.10 50 --by AS")
    assert "heater 30.10 is closed over by hood 50" in bench.refused("part out PO-7781 30.10 --why x --by AS")


def test_another_unit_waits_until_it_is_said_what_is_in_it(bench: Bench) -> None:
    """Else what was left in the first one is asked as soon as the second lies over it: it would come out again."""
    (first,) = ready(bench, "20/1")
    bench.do("job received PO-7781 20/1.10 20/1.20 20/1.30 20/1.90 --as 'left fitted' --why 'good' --by MK")
    bench.do("part fit PO-7781 20/1 --by AS")
    bench.do("part out PO-7781 20/1 --why 'exchanged' --by AS")
    bench.write("disposition.given", first, **{"as": "scrap"})
    second = bench.brought("20/1", "A-20", origin="exchanged")
    bench.judged(second)
    bench.do("part release PO-7781 20/1 --by OF")
    fit = "part fit PO-7781 20/1 --by AS"
    said = bench.refused(fit)
    assert "closes over rotor 20/1.10, which was left fitted in another unit" in said and "job received" in said
    assert "screw, cap 20/1.90, which was left fitted in another unit" in said
    found = bench.ask("job next PO-7781 20/1")
    assert (found["act"], found["about"]) == ("job received", "20/1.10")
    bench.do("job received PO-7781 20/1.10 --as 'received complete' --by MK")
    assert "closes over rotor 20/1.10, which is empty" in bench.refused(fit)
    bench.do(f"{fit} --came-with all")
    kinds = ("missing", "fitted over an empty position", "hardware does not balance")
    assert not [key for kind in kinds for key in bench.points(kind) if key.startswith("20/1")]


def test_nothing_is_closed_over_what_lies_over_an_empty_place(bench: Bench) -> None:
    """The clamp within the head comes out first: else the head would again, to reach it."""
    clamp = Line("20.10", "20", 3, "P-2010", "clamp", fit_after=("10",))
    lines = (Line("10", "", 1, "P-10", "plate"), Line("20", "", 2, "A-20", "head", kind="assembly"), clamp)
    bench.job(Bill("J", "A", lines=lines), order="PO-1")
    head, inside = bench.off("20", "20.10", order="PO-1")
    bench.write("disposition.given", head, inside, order="PO-1", **{"as": "use as is"})
    bench.do("part release PO-1 20 20.10 --by OF")
    bench.write("part.fitted", inside, "@20.10", order="PO-1")
    wrong = "head 20 closes over what is wrong: clamp 20.10 is fitted, but plate 10 beneath it is empty"
    assert wrong in bench.refused("part fit PO-1 20 --by AS")
    bench.do("part out PO-1 20.10 --why 'plate first' --by AS")


def test_nothing_is_closed_over_what_is_empty_beneath_a_place_that_is_not_there(bench: Bench) -> None:
    """The hood closes over all of the heater assembly, though that was not received as one."""
    bench.do("job received PO-7781 30 --as 'not received' --why x --by MK")
    ready(bench, "50", "30.10")
    assert "hood 50 closes over heater 30.10, which is empty" in bench.refused("part fit PO-7781 50 --by AS")


def test_nothing_is_closed_over_a_part_that_is_not_released_any_more(bench: Bench) -> None:
    """It would have to come out again for the work that is still to do on it."""
    part, _ = bowl(bench), cover(bench)
    bench.do("part fit PO-7781 10.20 --by AS")
    bench.do("consumable renew PO-7781 10.40 --lot L1 --by AS")
    with bench.open() as workshop:
        records = workshop.find_job("PO-7781").job.records.values()
        skip = next(one.ref for one in records if one.typ == "operation.skipped")
    bench.do(f"job take-back PO-7781 {skip} --why 'it was not clean' --by OF")
    said = bench.refused("part fit PO-7781 10.50 --by AS")
    assert f"cover 10.50 closes over what is wrong: {bench.tag(part)} bowl 10.20 is fitted but not released" in said
    found = bench.ask("job next PO-7781 10.50")
    assert (found["act"], found["about"]) == ("part out", bench.tag(part))
