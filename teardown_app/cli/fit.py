"""Commands that fit parts and take them out again."""

from __future__ import annotations

from teardown_app.cli.command import cautions
from teardown_app.cli.deed import Doing, Told, made, told
from teardown_app.domain.parts.caution import at_place
from teardown_app.workflows.fit import FIT
from teardown_app.workflows.take_out import OUT


def _fitted(doing: Doing) -> Told:
    rows = _rows(doing)
    return [*told(doing)[0], *_care(doing, rows)], {"fitted": rows}


def _taken_out(doing: Doing) -> Told:
    rows = _rows(doing)
    return [*told(doing)[0], *_care(doing, rows)], {"taken_out": rows}


def _rows(doing: Doing) -> list[dict[str, str]]:
    return [{"part": part, "position": place[1:]} for part, place in (draft.ent for draft in doing.drafts)]


def _care(doing: Doing, rows: list[dict[str, str]]) -> list[str]:
    return cautions(said for row in rows for said in at_place(doing.act.job, row["position"]))


COMMANDS = (
    made(FIT, _fitted),
    made(OUT, _taken_out),
)
