"""Sheets of labels, drawn with text and all, against the bare symbols of segno and qrcode in the same run."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from statistics import median
from time import perf_counter

import qrcode
from qrcode.util import MODE_ALPHA_NUM, QRData

from teardown_app.domain.tags.tag import issue
from teardown_app.labels.label import Label
from teardown_app.labels.sheet import sheet_pdf
from teardown_app.labels.stock_file import shelf_of
from teardown_app.labels.symbol import symbol

SIZES = (200, 1_000)
ROUNDS = 3
LINES = ("10/2.20.5/3", "Bearing housing, drive end, with labyrinth seal", "J7K3M0001H")


def by_qrcode(number: str) -> None:
    """One symbol as the library makes it, choosing its mask."""
    code = qrcode.QRCode(version=1, error_correction=qrcode.constants.ERROR_CORRECT_H, border=0)
    code.add_data(QRData(number, mode=MODE_ALPHA_NUM), optimize=0)
    code.make(fit=False)


def by_segno(number: str) -> None:
    """One symbol by the other library."""
    import segno

    segno.make(number, error="h", version=1, mode="alphanumeric", boost_error=False)


def main() -> None:
    """One line a size: a sheet with its text as ratio to nothing but the symbols of each library."""
    stock = shelf_of().find("a4-40")
    sheet_pdf([Label("P7K3M0001B", LINES)], stock)  # letters and libraries are loaded once
    for size in SIZES:
        numbers = issue("P", "7K3M", 1, size)[0]
        labels = [Label(number, LINES) for number in numbers]
        times: dict[str, list[float]] = {name: [] for name in ("sheet", "ours", "segno", "qrcode")}
        for _ in range(ROUNDS):
            times["sheet"].append(_timed(sheet_pdf, [labels], stock))
            for name, make in (("ours", symbol), ("segno", by_segno), ("qrcode", by_qrcode)):
                times[name].append(_timed(make, numbers))
        took = {name: median(rounds) for name, rounds in times.items()}
        print(
            f"sheets of {size} labels: {took['sheet'] * 1e3:.0f} ms, {took['sheet'] / size * 1e3:.2f} ms a label; "
            f"{took['sheet'] / took['segno']:.2f} times segno's bare symbols, "
            f"{took['sheet'] / took['qrcode']:.2f} times qrcode's; "
            f"our symbols alone {took['ours'] / took['segno']:.2f} and {took['ours'] / took['qrcode']:.2f} times",
            flush=True,
        )


def _timed(doing: Callable[..., object], each: Sequence[object], *more: object) -> float:
    start = perf_counter()
    for one in each:
        doing(one, *more)
    return perf_counter() - start
