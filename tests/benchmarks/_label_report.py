"""The page of the comparison of readers: `docs/readers.md` as text."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from tests.benchmarks._interval import interval
from tests.benchmarks._label_count import Count, Counts
from tests.benchmarks._label_hands import ROTATION, ZXING_AGAIN, Hands, p95
from tests.benchmarks._label_readers import NAMES, ZXING
from tests.scanbench.hands import FRAMES

FRAME_S = 0.033
"""A camera's frame time."""

HEAD = """# Readers of labels, side by side

Written by `python -m tests.benchmarks decode`; do not edit. **The pictures are drawn by program
(`tests/scanbench`), they are not photographs**: a real bench does what nobody thought of. No step was chosen on
the seeds used here. Measured: {machine}; {versions}. Times are processor time as ratio to zxing-cpp as it comes
(QR codes, whole picture) in the same run and group.

- *zxing-cpp*, *pyzbar*, *OpenCV* (its QRCodeDetector): as they come, QR codes only, on the whole picture.
- *read*: what the command `read` and the folder `scans` do (`read_still`), the numbers of *moderate*, *stained* and
  *greased* among 500 known ones. *ours*: the same where no number is known. *ours, pyzbar alone*: and where
  zxing-cpp is not installed.
- *ours, live*: `Rotation`, shown the same picture until it is read, at most one whole round; the time is that of
  one look.

*moderate*: labels of ours as people aim at them, of ten seeds. *field*: everything at once.
*stain EC M, Q, H*: stains of 5 to 25 % by error correction. *stained*, *greased*: labels of ours with that share
of the symbol covered, finder marks included. The other groups have one distortion each, from harmless to
hopeless, so that no reader reaches 100 %. Where two numbers are counted, the slow readers were given the smaller
one.
"""

HANDS_HEAD = """{hands} hands, ten frames of 1280 x 720 each, far harder than *moderate*: most frames are smeared.
Per cent of hands read after so many frames. A camera gives a frame every 33 ms; *95 of 100* is the time that 95 of
100 looks keep, as share of it and as ratio to zxing-cpp.
"""


def page(counts: Counts, hands: Mapping[str, Hands], versions: str, machine: str) -> str:
    """The whole page."""
    lines = [HEAD.format(machine=machine, versions=versions)]
    lines += ["## Labels read, in per cent", "", *_table(counts, "labels", _share)]
    lines += ["", _intervals(counts["moderate"])]
    lines += ["", "## Wrong texts", "", _wrong(counts)]
    lines += ["", "## Time of a look, mean / 95 of 100, as ratio to zxing-cpp", "", *_table(counts, "pictures", _times)]
    lines += ["", "## A moving hand", "", *_hands(hands)]
    return "\n".join(lines) + "\n"


def _intervals(by_reader: Mapping[str, Count]) -> str:
    """How far the shares of *moderate* may be off."""
    said = []
    for name, one in by_reader.items():
        low, high = interval(one.read, one.labels)
        said.append(f"{name} {100 * low:.1f} to {100 * high:.1f}")
    return "*moderate*, Wilson's intervals of 95 of 100, in per cent: " + ", ".join(said) + "."


def _table(counts: Counts, counted: str, cell: Callable[[Count, Count], str]) -> list[str]:
    rows = ["| group | " + counted + " | " + " | ".join(NAMES) + " |", "|---|---" + "|---" * len(NAMES) + "|"]
    for group in sorted(counts, key=_place):
        by_reader = counts[group]
        cells = [cell(by_reader[name], by_reader[ZXING]) for name in NAMES]
        rows.append(f"| {group} | {_counted(by_reader, counted)} | " + " | ".join(cells) + " |")
    return rows


def _place(group: str) -> tuple[int, str]:
    first = ("moderate", "field")
    return (first.index(group) if group in first else len(first), group)


def _counted(by_reader: Mapping[str, Count], counted: str) -> str:
    """How many; where slow readers were given fewer, both."""
    numbers = sorted({getattr(one, counted) for one in by_reader.values()}, reverse=True)
    return " / ".join(map(str, numbers))


def _share(one: Count, _plain: Count) -> str:
    return f"{one.share:.1f}" if one.labels else "none there"


def _times(one: Count, plain: Count) -> str:
    return f"{one.mean() / plain.mean():.1f} / {one.p95() / plain.p95():.1f}"


def _wrong(counts: Counts) -> str:
    """One sentence for all groups: how many texts that are on no label."""
    said = []
    for name in NAMES:
        ones = [by_reader[name] for by_reader in counts.values()]
        said.append(f"{name} {sum(one.wrong for one in ones)} in {sum(one.pictures for one in ones)} pictures")
    return "Texts that stand on no label: " + ", ".join(said) + "."


def _hands(hands: Mapping[str, Hands]) -> list[str]:
    """Hands read after 1 to 10 frames, and what a look costs against the frame time."""
    plain = p95(hands[ZXING_AGAIN])
    numbers = " | ".join(str(k + 1) for k in range(FRAMES))
    head = f"| looked at | {numbers} | wrong | 95 of 100, of 33 ms | to zxing-cpp |"
    many = hands[ROTATION].hands
    rows = [HANDS_HEAD.format(hands=many), head, "|---" * (FRAMES + 4) + "|"]
    for name, way in hands.items():
        shares = " | ".join(f"{100 * read / many:.0f}" for read in way.read_after)
        times = f"{100 * p95(way) / FRAME_S:.0f} % | {p95(way) / plain:.1f}"
        rows.append(f"| {_bold(name)} | {shares} | {way.wrong} | {times} |")
    return rows


def _bold(name: str) -> str:
    return f"**{name}**" if name == ROTATION else name
