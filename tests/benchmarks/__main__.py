"""Runs the benchmarks of this folder one after the other; each prints its ratios.

A benchmark is a module here with a function `main() -> None`. It measures what is asked and its bound or
peer in the same run and prints how many times the one is the other; times alone say nothing elsewhere.
Where it has a function `long() -> None` too, that is run by its name and `-long` only.
"""

from __future__ import annotations

import importlib
import sys
from pathlib import Path

HERE = Path(__file__).resolve().parent


def benchmarks() -> list[str]:
    """Names of the benchmarks, in name order."""
    return sorted(path.stem for path in HERE.glob("*.py") if not path.stem.startswith("_"))


LONG = "-long"


def long_benchmarks() -> list[str]:
    """Names of those that take many minutes, which run only when named."""
    return [name + LONG for name in benchmarks() if "\ndef long()" in (HERE / f"{name}.py").read_text("utf-8")]


def run(names: list[str]) -> int:
    """Run those named, or all; exit code 2 for a name that is none, 1 when there is nothing to run."""
    there = benchmarks()
    if not there:
        print(f"no benchmark in {HERE}", file=sys.stderr)
        return 1
    known = [*there, *long_benchmarks()]
    unknown = sorted(set(names) - set(known))
    if unknown:
        print(f"no benchmark called {', '.join(unknown)}; there are: {', '.join(known)}", file=sys.stderr)
        return 2
    for name in names or there:
        print(f"== {name.replace('_', ' ')}", flush=True)
        module = importlib.import_module(f"tests.benchmarks.{name.removesuffix(LONG)}")
        module.long() if name.endswith(LONG) else module.main()
    return 0


if __name__ == "__main__":
    sys.exit(run(sys.argv[1:]))
