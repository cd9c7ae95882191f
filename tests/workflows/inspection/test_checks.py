"""Checks: a number against the limit, an answer where a person judges, and what a reading binds.

Parts, limits and readings are invented.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from teardown_app.domain.bill.bill import Bill, Check, Limit, Line, Operation, Route
from teardown_app.domain.ledger.kinds.work import check_facet
from teardown_app.domain.parts.parts import came_from
from tests.workflows.reassembly.bench import Bench

CHECKS = {
    "ra": Check(
        "ra", "Roughness", limit=Limit("max 0.4 um", max=Decimal("0.4"), unit="um"), when=("as found", "finished")
    ),
    "coil": Check(
        "coil",
        "Coil resistance",
        limit=Limit("60 +-6 ohm", max=Decimal(66), min=Decimal(54), unit="ohm"),
        spots=("A", "B"),
        when=("finished",),
    ),
    "screws": Check("screws", "Screws seen", limit=Limit("count 4", count=4), when=("fitted",)),
    "seal": Check("seal", "Lip whole round", when=("fitted",)),
    "bonding": Check("bonding", "Bonding", type="bonding", when=("closed up",)),
    "look": Check("look", "No crack"),
    "gap": Check("gap", limit=Limit("compare pair", max=Decimal(1), unit="mm", compare="pair")),
    "like": Check("like", limit=Limit("compare pair", compare="pair")),
    "worn": Check(
        "worn",
        limit=Limit("compare as found", max=Decimal("0.05"), unit="mm", compare="as found"),
        when=("as found", "finished"),
    ),
    "bore": Check("bore", limit=Limit("80 mm H7", nominal=Decimal(80), unit="mm", fit="H7")),
    "both": Check("both", when=("finished", "fitted")),
    "fresh": Check("fresh", when=("new", "finished")),
}
SAMPLE = Bill(
    "SAMPLE",
    "A",
    lines=(
        Line("10", "", 2, "P-10", "plate", checks=("ra", "coil", "screws", "seal", "bonding"), routes=("clean",)),
        Line("20", "", 3, "P-20", "cap", checks=("look",)),
        Line("30", "", 4, "P-30", "ring", checks=("gap", "like", "worn", "bore", "both", "fresh"), routes=()),
    ),
    checks=CHECKS,
    routes={"clean": Route("clean", operations=(Operation("wash", "Wash"),))},
)
ORDER = "PO-5"


@pytest.fixture
def tool(bench: Bench) -> Bench:
    """The bench with a job on the sample, its two parts off."""
    bench.job(SAMPLE, order=ORDER)
    bench.off("10", "20", order=ORDER)
    return bench


def read(tool: Bench, words: str) -> str:
    return str(tool.ask(f"check read {ORDER} {words} --by MK")["verdict"])


def stands(tool: Bench, name: str, when: str, spot: str = "") -> str:
    rows = tool.ask(f"check list {ORDER} 10")
    return next(row["stands"] for row in rows if (row["check"], row["when"], row["spot"]) == (name, when, spot))


def test_a_number_is_held_against_the_limit_and_the_limit_itself_is_good(tool: Bench) -> None:
    assert read(tool, "10 ra --when finished --value '0.40 um'") == "accept"
    assert read(tool, "10 ra --when finished --value '0,41 um'") == "reject"
    assert read(tool, "10 ra --when finished --value '400 nm'") == "accept"
    assert read(tool, "10 ra --when finished --value 0.3") == "accept"


def test_both_sides_of_a_band_and_every_spot(tool: Bench) -> None:
    assert read(tool, "10 coil --spot A --value '0.06 kohm'") == "accept"
    assert read(tool, "10 coil --spot B --value '53.9 Ω'") == "reject"
    assert (stands(tool, "coil", "finished", "A"), stands(tool, "coil", "finished", "B")) == ("accept", "reject")
    assert "is read at A, B" in tool.refused(f"check read {ORDER} 10 coil --value '60 ohm' --by MK")


def test_a_verdict_is_never_typed_where_a_number_decides(tool: Bench) -> None:
    said = tool.refused(f"check read {ORDER} 10 ra --when finished --answer good --by MK")
    assert "has the limit max 0.4 um" in said
    assert "is no reading" in tool.refused(f"check read {ORDER} 10 ra --when finished --value smooth --by MK")
    assert "not in ohm" in tool.refused(f"check read {ORDER} 10 ra --when finished --value '3 ohm' --by MK")


def test_where_a_person_judges_the_answer_is_good_bad_or_unsure(tool: Bench) -> None:
    assert read(tool, "20 look --answer unsure") == "inconclusive"
    assert "check due" in {point["kind"] for point in tool.ask_points(ORDER) if point["position"] == "20"}
    assert read(tool, "20 look --answer good") == "accept"
    assert not [point for point in tool.ask_points(ORDER) if (point["kind"], point["position"]) == ("check due", "20")]
    assert "Answer good, bad or unsure" in tool.refused(f"check read {ORDER} 20 look --value '1 mm' --by MK")


def test_the_time_is_asked_for_when_a_check_has_several(tool: Bench) -> None:
    assert "as found and finished" in tool.refused(f"check read {ORDER} 10 ra --value '0.3 um' --by MK")
    said = tool.do(f"check read {ORDER} 10 ra --when 'as found' --value '3 um' --by MK")
    assert "reject" in said and "binds nothing" in said
    assert stands(tool, "ra", "finished") == "due"


def test_a_check_the_line_does_not_have_is_refused_with_those_it_has(tool: Bench) -> None:
    said = tool.refused(f"check read {ORDER} 20 runout --answer good --by MK")
    assert "cap 20 has no check runout" in said and "look (finished)" in said


def test_a_reading_before_an_operation_that_spoils_it_is_due_again(tool: Bench) -> None:
    said = tool.do(f"check read {ORDER} 10 ra --when finished --value '0.3 um' --by MK")
    assert "Wash is still to come and spoils this reading" in said
    tool.do(f"part done {ORDER} 10 --by CL")
    assert stands(tool, "ra", "finished") == "due again"


def test_fitted_readings_are_about_the_place_and_due_again_after_a_new_fitting(tool: Bench) -> None:
    assert read(tool, "10 screws --when fitted --value 3") == "reject"
    assert read(tool, "10 screws --value 4") == "accept"
    part = tool.ask(f"part show {ORDER} 10")["part"]
    tool.write("part.fitted", part, "@10", order=ORDER)
    assert stands(tool, "screws", "fitted") == "due again"


def test_what_cannot_be_read_stays_open_with_its_reason(tool: Bench) -> None:
    assert "Say why" in tool.refused(f"check impossible {ORDER} 10 seal --why ' ' --by MK")
    tool.do(f"check impossible {ORDER} 10 seal --why 'no lamp' --by MK")
    assert stands(tool, "seal", "fitted") == "not possible"


def test_a_protective_check_is_never_conceded(tool: Bench) -> None:
    key = next(point["key"] for point in tool.ask_points(ORDER) if "bonding" in point["key"])
    assert "never conceded" in tool.refused(f"job concede {ORDER} '{key}' --why x --reference y --by OF")


def body_of(tool: Bench, name: str, facet: str) -> dict[str, object]:
    """What was recorded of the reading that stands."""
    with tool.open() as workshop:
        job = workshop.find_job(ORDER).job
        (head,) = job.heads(came_from(job, name)[0], facet)
        return dict(head.record.body)


def test_a_refused_reading_names_the_part_and_how_to_write_it(tool: Bench) -> None:
    said = tool.refused(f"check read {ORDER} 10 ra --when finished --value '1e9999 um' --by MK")
    assert "plate 10: ra" in said and "is no reading" in said and "'0.4 um'" in said
    assert "is no reading" in tool.refused(f"check read {ORDER} 10 ra --when finished --value '1,234.5 um' --by MK")
    assert "plate 10" in tool.refused(f"check read {ORDER} 10 coil --spot C --value '60 ohm' --by MK")
    assert "has no spots" in tool.refused(f"check read {ORDER} 10 ra --when finished --spot A --value 0.3 --by MK")


def test_what_is_counted_is_a_whole_number_without_a_unit(tool: Bench) -> None:
    assert "is no count" in tool.refused(f"check read {ORDER} 10 screws --value 3.5 --by MK")
    assert "is no count" in tool.refused(f"check read {ORDER} 10 screws --value=-4 --by MK")
    assert "numbers without unit" in tool.refused(f"check read {ORDER} 10 screws --value '4 mm' --by MK")


def test_a_comparison_without_a_difference_is_judged_by_a_person_who_notes_against_what(tool: Bench) -> None:
    tool.off("30", order=ORDER)
    assert "Answer good" in tool.refused(f"check read {ORDER} 30 like --value '0.5 mm' --by MK")
    assert "No note says" in tool.do(f"check read {ORDER} 30 like --answer good --by MK")
    assert "No note says" not in tool.do(f"check read {ORDER} 30 like --answer bad --note 'plug 7' --by MK")
    row = next(row for row in tool.ask(f"check list {ORDER} 30") if row["check"] == "like")
    assert row["stands"] == "reject"


def test_a_comparison_is_held_against_what_is_recorded_or_said(tool: Bench) -> None:
    """At most 1 mm from the pair's reading."""
    tool.off("30", order=ORDER)
    assert "no such reading is recorded" in tool.refused(f"check read {ORDER} 30 gap --value '0.5 mm' --by MK")
    assert read(tool, "30 gap --value '5.0 mm' --against '4.0 mm'") == "accept"
    assert read(tool, "30 gap --value '5.01 mm' --against '4.0 mm'") == "reject"
    assert read(tool, "30 gap --value '2.99 mm' --against '4.0 mm'") == "reject"
    said = tool.refused(f"check read {ORDER} 30 gap --value '5 mm' --against '4 ohm' --by MK")
    assert "nothing to compare with" in said


def test_a_comparison_with_the_reading_as_found_takes_it_from_the_records(tool: Bench) -> None:
    tool.off("30", order=ORDER)
    tool.do(f"check read {ORDER} 30 worn --when 'as found' --value '20.00 mm' --against '20 mm' --by MK")
    assert read(tool, "30 worn --when finished --value '19.95 mm'") == "accept"
    assert read(tool, "30 worn --when finished --value '19.94 mm'") == "reject"


def test_a_fit_class_gives_its_limits_of_size(tool: Bench) -> None:
    """80 H7: 0 to +0.030 mm (ISO 286-2)."""
    tool.off("30", order=ORDER)
    read_at = [read(tool, f"30 bore --value '{value} mm'") for value in ("79.999", "80", "80.03", "80.031")]
    assert read_at == ["reject", "accept", "accept", "reject"]


def test_a_place_named_for_a_check_of_part_and_place_is_asked_which(tool: Bench) -> None:
    tool.off("30", order=ORDER)
    said = tool.refused(f"check read {ORDER} 30 both --answer good --by MK")
    assert "ring 30: both is read finished and fitted" in said and "--when" in said
    assert "(fitted)" in tool.do(f"check read {ORDER} @30 both --answer good --by MK")
    assert "(finished)" in tool.do(f"check read {ORDER} 30 both --when finished --answer good --by MK")
    assert "on this place fitted" in tool.refused(f"check read {ORDER} @30 both --when finished --answer good --by MK")


def test_a_new_part_is_read_when_new_and_listed_so(tool: Bench) -> None:
    tool.write("part.brought_in", "new:1", order=ORDER, meant_for="30", part_number="P-30", origin="stock")
    assert "(new)" in tool.do(f"check read {ORDER} 30 fresh --answer good --by MK")
    rows = [(row["when"], row["stands"]) for row in tool.ask(f"check list {ORDER} 30") if row["check"] == "fresh"]
    assert rows == [("new", "accept")]
    assert "on this part new" in tool.refused(f"check read {ORDER} 30 fresh --when finished --answer good --by MK")


def test_a_gate_reading_is_about_the_place(tool: Bench) -> None:
    assert "check due" in {point["kind"] for point in tool.ask_points(ORDER) if "bonding" in point["key"]}
    assert "(closed up)" in tool.do(f"check read {ORDER} 10 bonding --answer good --by MK")
    assert not [point for point in tool.ask_points(ORDER) if "bonding" in point["key"]]


def test_a_reading_carries_its_value_limit_and_method(tool: Bench) -> None:
    said = tool.do(f"check read {ORDER} 10 ra --when finished --value '0,38 µm' --instrument R-7 --by MK")
    assert "0.38 um: accept, limit max 0.4 um" in said
    body = body_of(tool, "10", check_facet("ra", "", "finished"))
    assert body["value"] == {"text": "0.38", "unit": "um"} and body["instrument"] == "R-7"
    assert (body["verdict"], body["limit"], body["method"]) == ("accept", "max 0.4 um", "simple/3")


def test_a_comma_that_could_be_either_is_refused(tool: Bench) -> None:
    said = tool.refused(f"check read {ORDER} 10 ra --when finished --value '1,500 um' --by MK")
    assert "fraction or thousands" in said
    said = tool.refused(f"check read {ORDER} 10 ra --when finished --value '0.3 um' --uncertainty '1,500 um' --by MK")
    assert "no uncertainty" in said
    tool.off("30", order=ORDER)
    said = tool.refused(f"check read {ORDER} 30 gap --value '5 mm' --against '1,500 mm' --by MK")
    assert "nothing to compare with" in said


def test_a_name_with_a_stroke_is_not_read_and_stops_no_list(bench: Bench) -> None:
    """A bill that was frozen before such names were faults, and a record that was written with one."""
    ports = Check("ports", when=("fitted",), spots=("inlet/outlet",))
    bench.job(
        Bill("SAMPLE", "A", lines=(Line("10", "", 2, "P-10", checks=("ports",)),), checks={"ports": ports}), order=ORDER
    )
    said = bench.refused(f"check read {ORDER} @10 ports --spot inlet/outlet --answer good --by MK")
    assert "has a stroke in its name" in said
    bench.write("check.read", "@10", check="ports", spot="inlet/outlet", when="fitted", verdict="accept", order=ORDER)
    assert ORDER in bench.do("job list")
