"""Commands about counted hardware: what was counted is held against the bill, the balance is said."""

from __future__ import annotations

from teardown_app.cli.deed import Doing, Told, made
from teardown_app.domain.parts.naming import named
from teardown_app.workflows.called import places_meant
from teardown_app.workflows.count import COUNT
from teardown_app.workflows.hardware import MOVE, balance


def _moved(doing: Doing) -> Told:
    keys = [thing[1:] for thing in doing.things]
    lines = [balance(doing.act, position) for position in places_meant(doing.act, keys)]
    return lines, {"balance": lines}


def _counted(doing: Doing) -> Told:
    """One bag may hold the screws of several places: they are said together."""
    job, keys = doing.act.job, [thing[1:] for thing in doing.things]
    wanted = sum(job.positions[key].count or 0 for key in keys)
    return [f"{', '.join(named(job, key) for key in keys)}: {doing.fields['found']} found, {wanted} belong there."], {}


COUNTED = made(COUNT, _counted)
MOVED = made(MOVE, _moved)
