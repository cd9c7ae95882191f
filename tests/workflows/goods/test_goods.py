"""Parts from elsewhere: brought in, handed over between jobs, given back. Photographs without metadata."""

from __future__ import annotations

from pathlib import Path

from PIL import Image

from tests.workflows.reassembly.bench import Bench
from tests.workflows.reassembly.pump import PUMP


def test_a_replacement_waits_for_the_old_part_to_be_judged(bench: Bench) -> None:
    bench.off("10.20")
    act = "part bring-in PO-7781 P-1020 --origin new --for 10.20 --new-number --by OF"
    said = bench.refused(act)
    assert "still meant to go back into bowl 10.20" in said and "part judge" in said
    bench.do("part find PO-7781 10.20 --word crack --cause freight --by MK")
    bench.write("disposition.given", bench.ask("part show PO-7781 10.20")["part"], **{"as": "spare"})
    assert "crack waits for the customer's answer (not asked yet)" in bench.refused(act)
    bench.do("finding answer PO-7781 10.20 --as approved --reference 'mail 2' --by OF")
    number = bench.ask(act)["number"]
    assert bench.ask(f"part show PO-7781 {number}")["origin"] == "new"


def test_what_does_not_fit_is_not_taken_in(bench: Bench) -> None:
    said = bench.refused("part bring-in PO-7781 P-1030 --origin new --for 10.20 --new-number --by OF")
    assert "P-1030 does not fit bowl 10.20" in said and "P-1020" in said
    assert "needs a place to lie" in bench.refused("part bring-in PO-7781 P-1020 --origin new --for 10.20 --by OF")
    assert "for counted hardware" in bench.refused(
        "part bring-in PO-7781 H-M6 --origin new --for 10.90 --new-number --by OF"
    )


def test_a_part_goes_to_another_job_with_consent_and_is_owed_until_given_back(bench: Bench) -> None:
    other = bench.job(PUMP, order="PO-9")
    (part,) = bench.off("10.20")
    tag = bench.tag(part)
    act = f"part hand-over PO-7781 {tag} --to PO-9 --for 10.20"
    assert "only with consent" in bench.refused(f"{act} --consent ' ' --by OF")
    assert "office work" in bench.refused(f"{act} --consent 'mail 3' --by MK")
    bench.do(f"{act} --consent 'mail 3' --by OF")
    assert bench.points("debt") == ["10.20"]
    row = bench.ask(f"part show PO-9 {tag}")
    assert (row["origin"], row["part_number"]) == ("other job", "P-1020")
    assert "handed over already" in bench.refused(f"{act} --consent 'mail 3' --by OF")
    assert "no job" in bench.refused(f"part give-back PO-7781 {tag} --from PO-1 --consent x --by OF")
    bench.do(f"part give-back PO-7781 {tag} --from PO-9 --consent 'mail 9' --by OF")
    assert bench.points("debt") == []
    assert other


def test_what_is_fitted_or_held_is_not_handed_over(bench: Bench) -> None:
    bench.job(PUMP, order="PO-9")
    first, second = bench.off("10.20", "10.30")
    bench.write("part.fitted", first, "@10.20")
    bench.do("part hold PO-7781 10.30 --why x --by MK")
    assert "part out" in bench.refused("part hand-over PO-7781 10.20 --to PO-9 --for 10.20 --consent x --by OF")
    assert "on hold" in bench.refused("part hand-over PO-7781 10.30 --to PO-9 --for 10.30 --consent x --by OF")
    assert second


def test_each_part_goes_to_another_job_by_itself(bench: Bench) -> None:
    bench.job(PUMP, order="PO-9")
    bench.off("10.20", "10.30")
    said = bench.refused("part hand-over PO-7781 10.20 10.30 --to PO-9 --for 10.20 --consent x --by OF")
    assert "Each goes to another job by itself" in said


def test_screws_are_handed_over_only_as_far_as_the_bag_has_them(bench: Bench) -> None:
    bench.job(PUMP, order="PO-9")
    bench.do("hardware count PO-7781 10.91 --found 3 --by MK")
    act = "hardware hand-over PO-7781 10.91 --to PO-9 --for 10.91 --consent 'mail 3' --by OF"
    assert "3 are in the bag" in bench.refused(f"{act} --quantity 4")
    bench.do(f"{act} --quantity 1")
    bench.do("hardware move PO-7781 10.91 --put-in 2 --by AS")
    assert "10.91" not in bench.points("hardware does not balance")


def test_a_photograph_is_kept_small_and_without_metadata(bench: Bench, picture: Path, tmp_path: Path) -> None:
    bench.off("10.20")
    act = f"part photo PO-7781 '{picture}' --part 10.20 --position 10.30"
    kept = bench.ask(f"{act} --area inside --ring 0.4,0.5,0.1 --by MK")["photos"]
    assert len(kept) == 2, "the picture and its marked copy"
    rows = bench.ask(f"job photos PO-7781 --out '{tmp_path / 'out'}'")
    for row in rows:
        data = Path(row["file"]).read_bytes()
        assert b"SECRET" not in data
        assert max(Image.open(row["file"]).size) == 2000
        assert not Image.open(row["file"]).getexif()
    assert rows[0]["area"] == "inside" and "ring 10.30" in rows[0]["shows"]
    bench.do(f"{act} --full-size --by MK")
    assert Image.open(bench.ask(f"job photos PO-7781 --out '{tmp_path / 'out'}'")[2]["file"]).size == (2600, 1300)


def test_a_torn_picture_and_a_wrong_mark_are_refused(bench: Bench, picture: Path, tmp_path: Path) -> None:
    torn = tmp_path / "torn.jpg"
    torn.write_bytes(picture.read_bytes()[:900])
    assert "torn.jpg" in bench.refused(f"part photo PO-7781 '{torn}' --by MK")
    assert "3 numbers between 0 and 1" in bench.refused(f"part photo PO-7781 '{picture}' --ring 1,2 --by MK")
    assert "no right" in bench.refused(f"part photo PO-7781 '{picture}' --by XX")
