"""The pump goes together again: every example of the help works as it stands, and nothing is left open."""

from __future__ import annotations

from teardown_app.cli.table import COMMANDS
from tests.workflows.reassembly.bench import Bench

EXAMPLES = {" ".join(one.words): one.example.removeprefix("teardown-app ") for one in COMMANDS}


def test_the_examples_of_the_help_work_in_the_order_of_a_job(bench: Bench) -> None:
    """From what was received to the last joint, by the very lines that the help prints."""

    def help_says(command: str) -> str:
        return bench.do(EXAMPLES[command])

    help_says("job received")
    help_says("job add-line")
    help_says("temporary in")
    parts = bench.off("10.20", "10.30", "10.35")
    help_says("part start")
    help_says("part done")
    help_says("part skip")
    bench.do("part skip PO-7781 10.30 --operation polish --why 'no heat tint' --by OF")
    bench.do("part start PO-7781 10.20 --by CL")
    help_says("part stop")
    bench.do("part start PO-7781 10.20 --by CL")
    bench.do("part done PO-7781 10.20 10.30 --by CL")
    help_says("part wait-over")
    bench.do("part wait-over PO-7781 10.30 --why 'dried since Friday' --by OF")
    bench.judged(*parts)
    bench.read(parts[0])
    assert len(bench.ask(EXAMPLES["part release"])["parts"]) == 3
    assert "10.20" in help_says("job next")
    help_says("part fit")
    help_says("part out")
    bench.do("part fit PO-7781 10.30 10.35 --by AS")
    help_says("consumable renew")
    help_says("consumable keep")
    bench.write("hardware.counted", "@10.90", found=7)
    help_says("hardware move")
    bench.do("job received PO-7781 10.50 --as 'left fitted' --why 'not ordered' --by MK")
    help_says("joint torque")
    help_says("joint open")
    help_says("temporary out")


def test_a_pump_goes_together_until_nothing_is_open(bench: Bench) -> None:
    """A small job whole: what was not received is said, the rest comes off, is worked, and goes in again."""
    bench.do("job received PO-7781 20/2 30 50 --as 'not received' --why 'packing list' --reference 'mail 1' --by OF")
    bench.do("job received PO-7781 20/1 --as 'left fitted' --why 'not ordered' --by MK")
    parts = bench.off("10.20", "10.30", "10.35", "10.50")
    bench.write("hardware.counted", "@10.90", "@10.91", found=10)
    bench.do("temporary out PO-7781 10.95 --by MK")
    bench.judged(*parts)
    bench.do("part done PO-7781 10.20 10.30 --value bath=B2 --value 'time=15 min' --by CL")
    bench.do("part done PO-7781 10.20 --by CL")
    bench.do("part skip PO-7781 10.30 --why 'aluminium' --by OF")
    bench.do("part done PO-7781 10.20 10.30 --by CL")
    bench.do("part done PO-7781 10.50 --by CL")
    bench.read(parts[0])
    bench.clock("2026-03-16T08:00:00+01:00")
    assert len(bench.ask("part release PO-7781 --ready --by OF")["parts"]) == 4
    bench.do("part fit PO-7781 10.20 10.30 10.35 --by AS")
    bench.do("consumable renew PO-7781 10.40 --lot L-1 --expiry 2027-06-30 --by AS")
    bench.do("consumable keep PO-7781 10.60 --by AS")
    bench.do("part fit PO-7781 10.50 --by AS")
    bench.do("hardware move PO-7781 10.90 10.91 --put-in --by AS")
    for _ in range(3):
        bench.do("joint torque PO-7781 10.90 --by AS")
    assert "bracket, shipping 10.95 has to be in" in bench.refused("job close PO-7781 --by OF")
    bench.do("temporary in PO-7781 10.95 --by AS")
    (waits,) = [one for one in bench.ask_points("PO-7781") if one["state"] == "open"]
    assert waits["kind"] == "to be accepted" and "MK says left fitted" in waits["wrong"]
    assert "Not accepted" in bench.refused("job close PO-7781 --by OF")
    bench.do(f"job close PO-7781 --accept '{waits['key']}' --by OF")
    assert "is closed" in bench.refused("part out PO-7781 10.35 --why x --by AS")
