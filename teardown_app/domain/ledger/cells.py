"""Records of one journal name and the cells they write to; a cell is one facet of one thing.

What is here stays as it was written; nothing is concluded from it. Found by name, by kind, by what they are about.
"""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.effect import MISFIT, NEWER
from teardown_app.domain.ledger.entry import Entry
from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.kinds.kind import Write
from teardown_app.domain.ledger.knowing import Knowing
from teardown_app.domain.ledger.record import RULES_KNOWN, VERSION, Record


class Cells:
    """The records that are here, as they were written."""

    def __init__(self) -> None:
        self._clear()

    def _clear(self) -> None:
        self.records: dict[str, Record] = {}
        self.knowing = Knowing()
        self._cells: dict[str, dict[str, list[Entry]]] = {}
        self._things: dict[str, dict[str, None]] = {}
        self._by_ref: dict[str, list[Record]] = {}
        self._about: dict[str, list[Record]] = {}
        self._of_kind: dict[str, list[Record]] = {}
        self._plain: dict[str, str] = {}
        self._misfits: dict[str, str] = {}

    def _keep(self, record: Record) -> None:
        self.records[record.h] = record
        self._by_ref.setdefault(record.ref, []).append(record)
        self._of_kind.setdefault(record.typ, []).append(record)
        for thing in dict.fromkeys(record.ent):
            self._about.setdefault(thing, []).append(record)

    def _understand(self, record: Record) -> list[Write]:
        """What the record writes; nothing where it is not understood."""
        kind = KINDS.get(record.typ)
        if kind is None or record.v > VERSION or _has_newer_rules(record):
            self._plain[record.h] = NEWER
            return []
        problem = kind.misfit(record)
        if problem:
            return self._misfit(record, problem)
        try:
            return list(kind.writes(record))
        except (KeyError, TypeError, ValueError, IndexError, AttributeError) as error:
            return self._misfit(record, str(error))

    def _misfit(self, record: Record, problem: str) -> list[Write]:
        self._plain[record.h] = MISFIT
        self._misfits[record.h] = problem
        return []

    def speaks_of(self, thing: str, facet: str = "") -> bool:
        """True when some record writes to the thing (to this facet of it)."""
        return facet in self._cells.get(thing, ()) if facet else thing in self._cells

    def speaks(self, facet: str) -> bool:
        """True when some record writes this facet of anything."""
        return facet in self._things

    def of_ref(self, ref: str) -> list[Record]:
        """Records of a name; more than one only on a fork."""
        return self._by_ref.get(ref, [])

    def of_kind(self, typ: str) -> list[Record]:
        """Records of a kind, with effect or without, in no order that decides anything."""
        return self._of_kind.get(typ, [])

    def things(self, facet: str) -> list[str]:
        """All things that have entries of a facet, in the order of their names."""
        return sorted(self._things.get(facet, ()))

    def written_facets(self, prefix: str) -> list[str]:
        """Facets that begin with `prefix/`, of anything, sorted."""
        start = prefix + "/"
        return sorted(name for name in self._things if name.startswith(start))

    def _entries(self, thing: str, facet: str) -> Sequence[Entry]:
        cells = self._cells.get(thing)
        return cells.get(facet, ()) if cells else ()


def _has_newer_rules(record: Record) -> bool:
    """True for an opening or amendment under rules that are not known here."""
    rules = record.body.get("rules") if record.typ in ("job.opened", "job.amended") else None
    return isinstance(rules, int) and not isinstance(rules, bool) and rules not in RULES_KNOWN
