"""Changes the code in one place at a time and says which changes no test noticed: `python -m tests.mutants`.

The same seed picks the same changes in the same order of the same code, so that a run can be spread:

    python -m tests.mutants --number 200 --seed 7 --from 0 --to 100 --rows a.jsonl
    python -m tests.mutants --number 200 --seed 7 --from 100 --to 200 --rows b.jsonl
    python -m tests.mutants --sum a.jsonl b.jsonl

With `--reached FILE` only tests that run the changed function are asked; the file is of the code as it was when it was
made, and leaves out tests that are newer.
"""

from __future__ import annotations

import argparse
import json
import sys
import tempfile
from itertools import islice
from pathlib import Path
from typing import NamedTuple

from tests.house.sources import PROJECT
from tests.mutants.changes import Made, picked
from tests.mutants.equivalents import equivalents, why_equal
from tests.mutants.reached import reached
from tests.mutants.trial import LIMIT_S, Trials, Unfit

ENOUGH = 0.95
"""Share of the changes, those listed as equivalent left aside, that a test has to notice."""


class Row(NamedTuple):
    """What became of one change. `by` is the test that noticed it, `equal` why none can."""

    number: int
    file: str
    line: int
    before: str
    after: str
    by: str
    equal: str


def arguments() -> argparse.ArgumentParser:
    """What can be said on the command line."""
    parser = argparse.ArgumentParser(
        prog="python -m tests.mutants", description="Which single changes no test notices."
    )
    parser.add_argument("--number", type=int, default=200, help="how many changes are picked")
    parser.add_argument("--seed", type=int, default=1, help="what picks them")
    parser.add_argument("--from", dest="first", type=int, default=0, help="the first of them that is tried, from 0 on")
    parser.add_argument("--to", type=int, default=None, help="the first that is not tried any more")
    parser.add_argument("--only", default="", help="pick from files whose path begins so")
    parser.add_argument("--limit", type=float, default=LIMIT_S, help="seconds for one folder of tests")
    parser.add_argument("--reached", type=Path, help="which test runs what is kept here, made where it is not")
    parser.add_argument("--near", type=int, default=0, help="ask only so many of those, the quickest")
    parser.add_argument("--rows", type=Path, help="file to which each row is added as it comes")
    parser.add_argument("--sum", type=Path, nargs="+", help="add up files of rows instead")
    parser.add_argument("--list", action="store_true", help="say what would be tried, and try nothing")
    return parser


def tried(number: int, made: Made, trials: Trials) -> Row:
    """One change, tried unless it is listed."""
    change = made.change
    equal = why_equal(equivalents(), change.file, made.before, made.after)
    by = "" if equal else trials.noticed_by(made)
    return Row(number, change.file, change.line, made.before, made.after, by, equal)


def told(row: Row) -> str:
    """One row of the table."""
    by = f"says the same: {row.equal}" if row.equal else row.by or "NOT NOTICED"
    return f"{row.number:4}  {row.file}:{row.line}\n      {row.before}\n   -> {row.after}\n   =  {by}"


def verdict(rows: list[Row]) -> tuple[str, bool]:
    """The last line, and whether enough was noticed."""
    counted = [row for row in rows if not row.equal]
    noticed = sum(bool(row.by) for row in counted)
    share = noticed / len(counted) if counted else 1.0
    left = f"{len(rows) - len(counted)} listed as equivalent, " if len(rows) > len(counted) else ""
    said = f"{len(rows)} changes, {left}{noticed} of {len(counted)} noticed: {share:.1%} ({ENOUGH:.0%} are wanted)"
    return said, share >= ENOUGH


def run(args: argparse.Namespace) -> list[Row]:
    """Tries the slice that is asked for, and prints each row as it comes."""
    chosen = list(islice(enumerate(picked(PROJECT, args.number, args.seed, args.only)), args.first, args.to))
    if args.list:
        return [
            Row(n, made.change.file, made.change.line, made.before, made.after, "not tried", "") for n, made in chosen
        ]
    rows = []
    with tempfile.TemporaryDirectory(prefix="mutants-") as folder:
        trials = Trials(PROJECT, Path(folder), args.limit, near=args.near)
        if args.reached:
            trials.keep_reached(args.reached)
            trials.known = reached(args.reached)
        for number, made in chosen:
            rows.append(tried(number, made, trials))
            print(told(rows[-1]), flush=True)
            if args.rows:
                with args.rows.open("a", encoding="utf-8") as file:
                    file.write(json.dumps(rows[-1]) + "\n")
    return rows


def main() -> int:
    """Exit code 0 when enough was noticed, 1 when not, 2 when the tests fail without a change."""
    args = arguments().parse_args()
    if args.sum:
        lines = [line for path in args.sum for line in path.read_text(encoding="utf-8").splitlines()]
        rows = sorted(Row(*json.loads(line)) for line in lines)
    else:
        print(f"seed {args.seed}", flush=True)
        try:
            rows = run(args)
        except Unfit as fault:
            print(f"The tests say nothing: {fault}", file=sys.stderr)
            return 2
    if args.sum or args.list:
        print("\n".join(map(told, rows)))
    said, enough = verdict(rows)
    missed = [row for row in rows if not row.by and not row.equal]
    if missed and not args.list:
        print("\nNot noticed:\n" + "\n".join(map(told, missed)))
    print(said)
    return 0 if enough else 1


if __name__ == "__main__":
    sys.exit(main())
