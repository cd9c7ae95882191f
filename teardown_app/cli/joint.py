"""Commands for joints: a pass of torque is said as the bill has it, and what is left."""

from __future__ import annotations

from teardown_app.cli.deed import Doing, Told, made, said_of
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.measure.torque import Torque
from teardown_app.domain.places.joint import passes_left
from teardown_app.workflows.act import Act
from teardown_app.workflows.called import place_meant
from teardown_app.workflows.torque import OPEN, TORQUE, how


def _tightened(doing: Doing) -> Told:
    rows = [_row(doing.act, draft) for draft in doing.drafts]
    return [_line(said_of(doing, f"@{row['position']}"), row) for row in rows], {"joints": rows}


def _row(act: Act, draft: Draft) -> dict[str, object]:
    position = place_meant(act, draft.ent[0])
    body = draft.body
    typed = Torque(**body["torque"]) if "torque" in body else None
    return {
        "position": position.key,
        "pass": body["pass"],
        "screws": body["screws"],
        "torque_nm": str(round(typed.newton_metres, 3)) if typed else "",
        "bill": how(position, body["pass"]),
        "left": passes_left(act.job, position),
    }


def _line(said: str, row: dict[str, object]) -> str:
    read = f" with {row['torque_nm']} N m" if row["torque_nm"] else ""
    left = row["left"]
    after = f"Left: {', '.join(f'{one} %' for one in left)}." if isinstance(left, list) and left else "All done."
    return f"{said.removesuffix('.')}{read} (bill: {row['bill']}). {after}"


COMMANDS = (made(TORQUE, _tightened), made(OPEN))
