"""Runs the benchmarks of this folder one after the other; each prints its ratios.

A benchmark is a module here with a function `main() -> None`. It measures what is asked and its bound or
peer in the same run and prints how many times the one is the other; times alone say nothing elsewhere.
What takes many minutes is a function `long() -> None` instead, or besides: it runs when it is named (by the module's
name, with `-long` where that has both) or all that is long is asked for (`long`).
"""

from __future__ import annotations

import importlib
import sys
from pathlib import Path
from time import perf_counter

HERE = Path(__file__).resolve().parent
LONG = "long"

Part = tuple[str, str]
"""Module and function."""


def parts() -> tuple[dict[str, Part], dict[str, Part]]:
    """Those of `make bench` and those of `make bench-long`, by name."""
    short: dict[str, Part] = {}
    long: dict[str, Part] = {}
    for path in sorted(HERE.glob("[!_]*.py")):
        text, name = path.read_text(encoding="utf-8"), path.stem
        if "\ndef main()" in text:
            short[name] = (name, "main")
        if f"\ndef {LONG}()" in text:
            long[f"{name}-{LONG}" if name in short else name] = (name, LONG)
    return short, long


def run(names: list[str]) -> int:
    """Run those named, or all that are not long; exit code 2 for a name that is none."""
    short, long = parts()
    known = short | long
    asked = list(long if names == [LONG] else names or short)
    unknown = sorted(set(asked) - set(known))
    if unknown:
        print(f"no benchmark called {', '.join(unknown)}; there are: {', '.join(known)}, {LONG}", file=sys.stderr)
        return 2
    for name in asked:
        print(f"== {name.replace('_', ' ')}", flush=True)
        module, function = known[name]
        began = perf_counter()
        getattr(importlib.import_module(f"tests.benchmarks.{module}"), function)()
        print(f"   ({perf_counter() - began:.0f} s)", flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(run(sys.argv[1:]))
