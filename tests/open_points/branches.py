"""How a tablet that has several branches of one file before it names them in `seen`.

Written from `docs/formats/journal-files.md` (section 5, Forks) alone.
"""

from __future__ import annotations

from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_knowing import BRANCH, File, Shelf, past, shelf_of

Entries = dict[str, tuple[int, str]]


def further(file: File, key: str, first: list[Record], others: list[Record], *, new_file: bool) -> Entries:
    """An entry for each branch that the first one's entry, or what one wrote oneself, does not reach: under the name of
    the branch's first record. `key` is the file's own name; whoever begins a new file names none of these before it."""
    shelf, found = shelf_of([*first, *others]), Entries()
    if new_file:
        known = {each.h for each in past(shelf, file, len(first) + 1, "")}
    else:
        known = walked(shelf, file, first[-1]) if first else set[str]()
    for tip in sorted([*first, *others], key=lambda each: (-each.seq, each.h)):
        if tip.h not in known:
            branch = walked(shelf, file, tip)
            begins = min((each for each in [*first, *others] if each.h in branch - known), key=lambda each: each.seq)
            found[f"{key}{BRANCH}{begins.h[:8]}"] = (tip.seq, tip.h[:8])
            known |= branch
    return found


def walked(shelf: Shelf, file: File, tip: Record) -> set[str]:
    """Hashes of a record and of all before it on its branch."""
    return {tip.h, *(each.h for each in past(shelf, file, tip.seq, tip.prev))}
