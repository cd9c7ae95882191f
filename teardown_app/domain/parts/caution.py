"""Cautions to say with a step: what the bill warns of, and the usual care with a trade. They authorise nothing.

Words of trades are common practice, no source. Local codes, the safety data sheet and licensed trades decide.
"""

from __future__ import annotations

from teardown_app.domain.bill.bill import Operation
from teardown_app.domain.job.job import Job

ACID = (
    "Acid: trained people only, ventilation, face shield and gloves, eye wash near; acid into water; "
    "never nitric with organics or chlorides. The safety data sheet decides."
)
WELD = "Welding: licensed welder, no residues of chemicals, fire watch."
ACID_WORDS = ("acid", "nitric", "citric", "phosphoric", "sulfuric", "sulphuric", "hydrochloric", "pickl")
ACID_TRADES = ("electropolish", "passivate", "pickle", "chemical clean")


def at_place(job: Job, key: str) -> list[str]:
    """What the bill warns of at a place and at everything above it, the nearest first."""
    keys = [key, *job.ancestors(key)]
    lines = [job.positions[one].line for one in keys if one in job.positions]
    return list(dict.fromkeys(line.hazard for line in lines if line.hazard))


def of_operation(operation: Operation) -> list[str]:
    """The usual care with an operation of a route."""
    trade, words = operation.trade.casefold(), f"{operation.medium} {operation.says}".casefold()
    said = []
    if trade in ACID_TRADES or any(word in words for word in ACID_WORDS):
        said.append(ACID)
    if trade == "weld":
        said.append(WELD)
    return said
