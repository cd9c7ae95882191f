"""All witnesses of the folder `witnesses`, and the page made from them: `python -m tests.metrology.all_witnesses`."""

from __future__ import annotations

from importlib import import_module
from importlib.util import find_spec
from pathlib import Path

from tests.metrology.witness import Witness

HERE = Path(__file__).resolve().parent
PAGE = HERE.parents[1] / "docs" / "witnesses.md"


def all_witnesses() -> list[Witness]:
    """Those of every area, in name order of the areas."""
    names = sorted(path.stem for path in (HERE / "witnesses").glob("*.py"))
    return [one for name in names for one in import_module(f"tests.metrology.witnesses.{name}").WITNESSES]


def installed(module: str) -> bool:
    """True for nothing needed, and for a module that can be imported."""
    return not module or find_spec(module) is not None


def page() -> str:
    """Function, source, worst difference, as Markdown; needs every library."""
    lines = [
        "# Who says that the numbers are right",
        "",
        "Written by `make witnesses`, which compares every function of `teardown_app/metrology` with sources that are",
        "not this project. Differences are shares of the largest value compared, or absolute where it says so.",
        "",
        "| function | source | worst difference | allowed |",
        "|---|---|---|---|",
    ]
    rows = sorted(
        f"| `{one.function}` | {one.source} | {one.difference():.1e}{' absolute' * one.absolute} | {one.within:.0e} |"
        for one in all_witnesses()
    )
    return "\n".join(lines + rows) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
