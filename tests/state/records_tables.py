"""The two tables of docs/formats/records.md, written from the code: `python -m tests.state.records_tables`."""

from __future__ import annotations

import re
from pathlib import Path

from teardown_app.domain.ledger.facets import FACETS, Facet
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.kinds.kind import Kind

DOCUMENT = Path(__file__).parents[2] / "docs" / "formats" / "records.md"

SAFER = {
    "options": "all that are named",
    "end": "open",
    "scope": "in scope, then left fitted",
    "approval": "declined, asked, approved, covered",
    "disposition": "the more severe",
    "check": "reject, inconclusive, not possible, accept",
    "operation": "started, stopped, skipped, done",
    "fit": "fitted nowhere",
    "filled": "not filled",
    "found": "the smaller count",
    "renewal": "due",
    "temporary": "wrong for running and for shipping",
    "retired": "the highest",
    "person": "fewest rights, earliest end, revoked",
    "known_place": "out of use",
    "carrier": "out of use",
    "instrument": "out of use, then due first",
    "label": "perhaps printed (sent)",
}
"""In words; facets not named here have no safer value: the first in text order is shown."""


def facet_row(name: str, merge: Facet) -> str:
    safer = SAFER.get(name, "-") if merge.rule in ("heads", "worst") else ""
    settles = "yes" if merge.settles else ""
    return f"| {name} | {merge.rule} | {safer} | {settles} |"


def facets_table() -> str:
    rows = [facet_row(name, merge) for name, merge in FACETS.items()]
    return "\n".join(["| facet | merge | safer value | settles |", "|---|---|---|---|", *rows])


IN_WORDS = {
    "disposition.given": "record; scrap for *scrap*",
    "joint.torqued": "record; release with `early`",
    "hardware.moved": "record; office with `added` below zero",
    "record.voided": "as its target",
}
"""Rights that depend on what is recorded: the table of acts has them."""


def kind_row(kind: Kind) -> str:
    fields = [name if field.needed else f"[{name}]" for name, field in kind.fields.items()]
    right = IN_WORDS.get(kind.typ, kind.right)
    where = "shop" if kind.shop else "job"
    facets = ", ".join(dict.fromkeys(kind.facets))
    return f"| {kind.typ} | {where} | {kind.about} | {', '.join(fields)} | {facets} | {right} |"


def kinds_table() -> str:
    rows = [kind_row(kind) for kind in KINDS.values()]
    head = ["| kind | journal | about | fields | facets | right |", "|---|---|---|---|---|---|"]
    return "\n".join([*head, *rows])


def filled_in(text: str) -> str:
    """The document with both tables as the code has them."""
    for name, table in (("facets", facets_table()), ("kinds", kinds_table())):
        text = re.sub(
            rf"<!-- {name} -->\n.*?<!-- /{name} -->",
            lambda _, name=name, table=table: f"<!-- {name} -->\n{table}\n<!-- /{name} -->",
            text,
            flags=re.DOTALL,
        )
    return text


if __name__ == "__main__":
    DOCUMENT.write_text(filled_in(DOCUMENT.read_text(encoding="utf-8")), encoding="utf-8")
