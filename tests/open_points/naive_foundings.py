"""Witness: foundings, which tablets count in a job, and who had which right.

Written from `docs/formats/records.md` (State 2 and 5, Foundings) alone. What is asked here of the shop's records is
asked without the job: whether a record stands in its own founding.
"""

from __future__ import annotations

from collections.abc import Mapping

from teardown_app.domain.ledger.kinds import KINDS
from teardown_app.domain.ledger.record import SHOP, VERSION, Record
from tests.open_points.naive_acts import of_making
from tests.open_points.naive_said import understood


class Foundings:
    """The foundings in a set of records."""

    def __init__(self, number: str, records: Mapping[str, Record], knew: Mapping[str, set[str]]) -> None:
        self.number, self.records, self.knew = number, records, knew
        self.persons = [each for each in records.values() if each.job == SHOP and each.typ == "person.given"]
        self.joinings = [each for each in records.values() if each.job == SHOP and each.typ == "founding.joined"]
        self._stands: dict[str, bool] = {}
        self._of_tablet: dict[str, str] = {}
        self._counting: list[frozenset[str] | None] = []

    # -- what stands in the shop's own journal ---------------------------------------------------

    def stands(self, record: Record) -> bool:
        """Whether a record of the shop has effect in its own founding. While it is asked, it has none."""
        if record.ref not in self._stands:
            self._stands[record.ref] = False
            self._stands[record.ref] = self._judged(record)
        return self._stands[record.ref]

    def _judged(self, record: Record) -> bool:
        if record.job != SHOP or record.typ not in KINDS or record.v > VERSION or not understood(record):
            return False
        needed = of_making(record)
        if not needed or self.is_founding(record):
            return True
        return all(self.has_any(record, rights) for rights in needed)

    def persons_seen(self, record: Record) -> list[Record]:
        """Every person.given that the author had seen and that stands."""
        return [each for each in self.persons if each.ref in self.knew[record.ref] and self.stands(each)]

    def is_founding(self, record: Record) -> bool:
        """ "a person.given by which a first person registered himself: `code` is its author, and he had seen no
        person.given that has effect"."""
        if record.job != SHOP or record.typ != "person.given" or record.v > VERSION or not understood(record):
            return False
        return bool(record.body["code"] == record.act) and not self.persons_seen(record)

    # -- which founding a tablet is of -----------------------------------------------------------

    def of_tablet(self, dev: str) -> str:
        """ "A tablet belongs to the founding that it knew first"; empty where it "knew none"."""
        if dev not in self._of_tablet:
            self._of_tablet[dev] = ""
            self._of_tablet[dev] = self._first_known(dev)
        return self._of_tablet[dev]

    def _first_known(self, dev: str) -> str:
        """ "of its records in the shop's journal, in the order of their numbers, the first that is a founding or
        whose author had seen one; if there is none, the first such of its records in this job"."""
        for journal in (SHOP, self.number):
            own = [each for each in self.records.values() if each.dev == dev and each.job == journal]
            for record in sorted(own, key=lambda each: (each.seq, each.h)):
                if known := self._known_to(record):
                    return self._chosen(record, known)
        return ""

    def _known_to(self, record: Record) -> list[Record]:
        seen = [each for each in self.persons if each.ref in self.knew[record.ref] and self.is_founding(each)]
        return seen + ([record] if self.is_founding(record) else [])

    def _chosen(self, record: Record, known: list[Record]) -> str:
        """ "If that record knew several at once: the one its earlier incarnation belongs to, if among them; else the
        one that gives the record's author rights: the author's own founding, else one whose tablet recorded a
        person.given for him that he had seen; else, or of several such, the one with the smallest name"."""
        names = sorted(each.ref for each in known)
        if len(names) == 1:
            return names[0]
        earlier = self._earlier_incarnation(record.dev)
        if earlier and self.of_tablet(earlier) in names:
            return self.of_tablet(earlier)
        own = sorted(each.ref for each in known if each.act == record.act)
        given = sorted(each.ref for each in known if self._gave(each.dev, record))
        return (own or given or names)[0]

    def _earlier_incarnation(self, dev: str) -> str:
        """ "same device, next lower number that is here"."""
        device, _, number = dev.rpartition("~")
        others = {each.dev.rpartition("~") for each in self.records.values()}
        lower = [int(n) for name, _, n in others if name == device and n.isdigit() and int(n) < int(number or 0)]
        return f"{device}~{max(lower)}" if lower else ""

    def _gave(self, dev: str, record: Record) -> bool:
        seen = [each for each in self.persons if each.dev == dev and each.ref in self.knew[record.ref]]
        return any(each.body.get("code") == record.act for each in seen)

    # -- what counts in the job ------------------------------------------------------------------

    def opening_tablet(self) -> str:
        """The tablet of the job's opening, "whether or not the opening has effect"; empty without one."""
        found = [each for each in self.records.values() if each.job == self.number and each.typ == "job.opened"]
        own = [each for each in found if _names(each, self.number)]
        return min(own, key=lambda each: (each.seq, each.h)).dev if own else ""

    def counting(self) -> frozenset[str] | None:
        """ "In a job the founding of its opening counts, and every founding that a `founding.joined` names which has
        effect and stands on a tablet of the opening's founding." None: nothing is left out."""
        if not self._counting:
            dev = self.opening_tablet()
            first = self.of_tablet(dev) if dev else ""
            here = [each for each in self.joinings if self.of_tablet(each.dev) == first and self.stands(each)]
            joined = {str(each.body["founding"]) for each in here}
            self._counting.append(frozenset({first, *joined}) if first else None)
        return self._counting[0]

    def counts(self, dev: str) -> bool:
        """ "Only records of tablets of these foundings count, the shop's too"."""
        counting = self.counting()
        return counting is None or (self.of_tablet(dev) != "" and self.of_tablet(dev) in counting)

    # -- rights ----------------------------------------------------------------------------------

    def has_any(self, record: Record, rights: tuple[str, ...]) -> bool:
        """Whether the author had one of these rights."""
        return any(self.has(record, right) for right in rights)

    def has(self, record: Record, right: str) -> bool:
        """Whether the author "had the right, as he had seen the shop", "judged by the record's own day"."""
        if self.is_founding(record):
            return True
        mine = [each for each in self._persons_for(record) if each.body["code"] == record.act]
        latest = [one for one in mine if not any(one.ref in self.knew[other.ref] for other in mine)]
        if not latest or any(each.body.get("revoked") for each in latest):
            return False
        ends = [each.body["until"] for each in latest if each.body.get("until")]
        if ends and (record.clk != "ok" or record.wall[:10] > min(ends)):
            return False
        return all(right in each.body["rights"] for each in latest)

    def _persons_for(self, record: Record) -> list[Record]:
        """Of the shop's own records: "the persons of the record's own founding, and of those that a joining, which
        its author had seen, names"; in a job, of all that counts."""
        seen = self.persons_seen(record)
        if record.job != SHOP:
            return [each for each in seen if self.counts(each.dev)]
        own = self.of_tablet(record.dev)
        joined = [each for each in self.joinings if each.ref in self.knew[record.ref] and self.stands(each)]
        judging = {own, *(str(each.body["founding"]) for each in joined if self.of_tablet(each.dev) == own)}
        return [each for each in seen if self.of_tablet(each.dev) in judging - {""}]


def _names(opening: Record, number: str) -> bool:
    """Whether an opening is by "the tablet that issued the job's number", as its letters say."""
    return (opening.body.get("number"), opening.body.get("letters")) == (number, number[1:5])
