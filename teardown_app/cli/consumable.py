"""Commands that renew consumables, or keep those that may stay: the lot is said where there is one."""

from __future__ import annotations

from teardown_app.cli.deed import Doing, Told, made, told
from teardown_app.workflows.consumable import KEEP, RENEW


def _renewed(doing: Doing) -> Told:
    lot = f", lot {doing.fields['lot']}" if doing.fields.get("lot") else ""
    lines, data = told(doing)
    return [f"{line.removesuffix('.')}{lot}." for line in lines], data


COMMANDS = (made(RENEW, _renewed), made(KEEP))
