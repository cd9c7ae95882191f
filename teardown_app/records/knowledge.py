"""Which part of what a tablet knows goes into the `seen` of one record."""

from __future__ import annotations

from collections.abc import Mapping

from teardown_app.domain.ledger.record import SHOP
from teardown_app.records.header import Seen

_SHOP_KEY = SHOP + "/"


def vector_for(job: str, own: str, known: Mapping[str, tuple[int, str]], main_job: str) -> Seen:
    """The vector of a record of `job` by device `own`.

    `known` as it was when the form was opened: plain keys are devices that write about `main_job`,
    `_shop/<dev>` their shop files, `JOB/<dev>` files of a further job of the same act.
    """
    shop = {key: value for key, value in known.items() if key.startswith(_SHOP_KEY)}
    if job == SHOP:
        return _real(shop, _SHOP_KEY + own)
    prefix = job + "/"
    mine = {key: value for key, value in known.items() if "/" not in key} if job == main_job else {}
    mine.update((key[len(prefix) :], value) for key, value in known.items() if key.startswith(prefix))
    return {**_real(mine, own), **_real(shop, "")}


def _real(known: Mapping[str, tuple[int, str]], left_out: str) -> Seen:
    return {key: (n, h8) for key, (n, h8) in known.items() if key != left_out and n}
