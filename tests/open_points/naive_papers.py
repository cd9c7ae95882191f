"""Witness: signatures, closing, recalls, labels, and what does not agree.

Written from `docs/formats/open-points.md` (sections 5, 7 and 9) alone.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_back import Lying
from tests.open_points.naive_conceding import SHIP, Conceding, Seen
from tests.open_points.naive_entries import Entry, Told, decides
from tests.open_points.naive_hardware import Hardware
from tests.open_points.naive_said import MAKERS, NOTED
from tests.open_points.naive_tool import Tool
from tests.open_points.naive_work import Work, says_only_where

NOT_SIGNED = (
    "photo.taken", "thing.put", "part.tagged", "part.renumbered", "work.signed", "job.closed",
)  # fmt: skip
SETTLES = {
    "job": {"order", "name", "serial", "due", "options"},
    "place": {"renewal", "check"},
    "part": {*NOTED, "disposition", "check", "operation", "written"},
}  # fmt: skip
"""Facets marked *settles*, by what the point is about; scope and found have rules of their own."""


def differ(left: Iterable[Entry]) -> bool:
    """Whether two of these entries say different things."""
    return len({repr(decides(each)) for each in left}) > 1


class Papers:
    """What is signed, written on labels, and written twice."""

    def __init__(self, conceding: Conceding, work: Work, hardware: Hardware, others: list[Told]) -> None:
        self.conceding, self.work, self.hardware, self.others = conceding, work, hardware, others
        self.tool, self.told, self.ground = conceding.tool, conceding.told, conceding.ground
        self.doubts = work.doubts

    # -- signatures ------------------------------------------------------------------------------------

    def signatures(self) -> Iterator[Seen]:
        """ "*Sign again* stands for whatever was signed, is here, and has no signature that stands."."""
        signed = {self.told.one(entry.name) for entry in self.told.entries if entry.fact == "signature"}
        for name in sorted(filter(self.tool.is_here, signed)):
            entries = self.told.all(name, "signature")
            if not any(self.stands(name, entry.record) for entry in entries):
                scope = self.scope(name)
                found_out = self.found_out_in(scope)
                ground = [(each, "") for each in [*(entry.record for entry in entries), *scope, *found_out]]
                yield self.conceding.point("sign again", SHIP, name.removeprefix("@"), "", ground)

    def stands(self, name: str, signature: Record) -> bool:
        """ "**A signature stands** while its author had seen everything in its scope"."""
        scope = self.scope(name)
        return all(self.told.saw(signature, each) for each in [*scope, *self.found_out_in(scope)] if each != signature)

    def scope(self, name: str) -> list[Record]:
        """ "on the job, every record of the job's journal, with effect or without; on a place, every record about it,
        places beneath it, and parts of which any record with effect, taken back or not, says that they came out of, are
        meant for or were fitted at these places, whether that holds today or not, and findings and holds on these; on
        a part, every record about it. Taken back or not." With its exceptions."""
        if name == "job":
            found = self.told.job
        elif name.removeprefix("@") in self.tool.places and name.startswith("@"):
            found = self._about_place(name[1:])
        else:
            found = self.work.about(name)
        return [each for each in found if not self._is_excepted(each)]

    def _about_place(self, key: str) -> list[Record]:
        here = {"@" + each for each in self.tool.here_and_beneath([key])}
        told = [*self.told.entries, *self.told.gone]
        parts = {e.name for e in told if e.fact in ("out_of", "meant_for") and "@" + e.value in here}
        parts |= {e.name for e in told if e.fact == "fit" and e.value in here}
        records = [each for thing in [*sorted(here), *sorted(parts)] for each in self.work.about(thing)]
        return [each for each in self.told.written if each in records]

    def _is_excepted(self, record: Record) -> bool:
        recall = record.typ == "point.conceded" and str(record.body.get("key", "")).startswith("recall|")
        return record.typ in NOT_SIGNED or recall or says_only_where(record)

    def found_out_in(self, scope: list[Record]) -> list[Record]:
        """ "every finding out of the shop that puts a reading or torque in its scope in doubt and is not after
        closing"; it is after closing for one of these, and not for another."""
        doubts = self.doubts
        there = [(entry, one) for entry in self._readings_and_torques(scope) for one in doubts.doubting(entry)]
        found = [one for entry, one in there if not doubts.is_after_closing(one, entry)]
        return [each for each in doubts.found if each in found]

    def _readings_and_torques(self, scope: list[Record]) -> list[Entry]:
        facts = ("check", "torque")
        return [e for e in self.told.entries if e.fact.partition("/")[0] in facts and e.record in scope]

    # -- closing ---------------------------------------------------------------------------------------

    def recalls(self) -> Iterator[Seen]:
        """ "A finding out F after closing: If it puts a reading or torque of the job in doubt it is one point,
        *recall*"."""
        every, doubts = self._readings_and_torques(self.told.job), self.doubts
        for found in doubts.found:
            if any(found in doubts.doubting(each) and doubts.is_after_closing(found, each) for each in every):
                yield self.conceding.point("recall", SHIP, "job", found.ref, [(found, "")])

    def is_closed(self, *, is_complete: bool) -> bool:
        """ "**A job is closed** while no unreplaced `end` entry is *open*, one is a job.closed K, a signature on the
        job that K's author had seen stands, and no point is open."."""
        ends = self.told.left("job", "end")
        signed = [e.record for e in self.told.all("job", "signature") if self.stands("job", e.record)]
        seen = any(self.told.saw(end.record, one) for end in ends for one in signed)
        return is_complete and all(end.value == "closed" for end in ends) and seen

    # -- labels ----------------------------------------------------------------------------------------

    def labels(self) -> Iterator[Seen]:
        """ "two parts have it as present number (any unreplaced entry of `number`)", here or in two jobs."""
        mine = present_numbers(self.told, self.tool.parts)
        for number, parts in sorted(mine.items()):
            if len(parts) > 1:
                ground = [(each, "") for each in self.told.written if self._speaks_of(each, number)]
                yield self.conceding.point("label of two parts", SHIP, number, "", ground)
            for other in self.others:
                if self._is_in_use(number, parts, other):
                    which = other.number
                    yield self.conceding.point("label of two parts", SHIP, number, which, [], never=True)

    def _speaks_of(self, record: Record, number: str) -> bool:
        """ "part.tagged, part.renumbered, part.noted, bringing in with this number; part.same_as"."""
        kinds = ("part.tagged", "part.renumbered", "part.noted", *MAKERS)
        return record.typ == "part.same_as" or (record.typ in kinds and record.body.get("number") == number)

    def _is_in_use(self, number: str, parts: list[str], other: Told) -> bool:
        """ "A number that is present on a part here and on a part of another job is a point in both, unless for these
        two parts one job has a goods.handed_over `to` the other and that one a goods.taken_over `of` the first".
        "Trial jobs are compared with trial jobs only."."""
        if _is_trial(self.told) != _is_trial(other):
            return False
        theirs = present_numbers(other, _parts_of(other)).get(number, [])
        return any(
            not _went(self.told, one, other, two) and not _went(other, two, self.told, one)
            for one in parts
            for two in theirs
        )

    # -- what does not agree ---------------------------------------------------------------------------

    def conflicts(self) -> Iterator[Seen]:
        """ "two unreplaced entries differ (facets marked *settles*)", "two parts came out of one place", "one pass has
        two unreplaced *done*"."""
        yield from (each for fact in sorted(SETTLES["job"]) for each in self._two("job", "job", fact))
        for key in self.tool.places:
            yield from (each for fact in self._settling("@" + key, "place") for each in self._two("@" + key, key, fact))
            yield from self._two_said_of(key)
        for part in self.tool.parts:
            yield from self._two_of_part(part)

    def _settling(self, name: str, sort: str) -> list[str]:
        return sorted(fact for fact in self.told.facts(name, "") if fact.partition("/")[0] in SETTLES[sort])

    def _two(self, name: str, subject: str, fact: str, which: str = "") -> Iterator[Seen]:
        if differ(self.told.left(name, fact)):
            yield self._point(subject, which or fact, name, fact)

    def _point(self, subject: str, which: str, name: str, fact: str) -> Seen:
        """Its ground is "the records that write this fact"."""
        return self.conceding.point("two different entries", SHIP, subject, which, self._writing(name, fact))

    def _writing(self, name: str, fact: str) -> list[Lying]:
        entries = [*self.told.all(name, fact), *self.told.all_gone(name, fact)]
        return [(entry.record, entry.name) for entry in entries]

    def _two_said_of(self, key: str) -> Iterator[Seen]:
        words = self.ground.words(key)
        if any(entry.name == "@" + key for entry in words) and differ(words):
            there = [*self.ground.scope_entries(key), *self.ground.scope_entries(key, gone=True)]
            ground = [(entry.record, "") for entry in there]
            yield self.conceding.point("two different entries", SHIP, key, "scope", ground)
        parts = self.tool.came_out(key)
        if len(parts) > 1:
            ground = [each for part in parts for each in self._writing(part, "out_of")]
            yield self.conceding.point("two different entries", SHIP, key, "came_out", ground)
        if self.hardware.differs(self.hardware.bag("@" + key)):
            yield self._point(key, "found", "@" + key, "found")

    def _two_of_part(self, part: str) -> Iterator[Seen]:
        for fact in self._settling(part, "part"):
            yield from self._two(part, part, fact)
            done = [entry for entry in self.told.left(part, fact) if entry.value == "done"]
            if fact.startswith("operation/") and len(done) > 1:
                yield self._point(part, f"{fact}/twice", part, fact)
        for finding in self.work.findings(part):
            yield from self._two(finding, part, "approval", f"approval/{finding}")


def present_numbers(told: Told, parts: list[str]) -> dict[str, list[str]]:
    """Numbers that are present on these parts: every unreplaced entry of `number`."""
    found: dict[str, list[str]] = {}
    for part in parts:
        for number in sorted({entry.value for entry in told.left(part, "number")}):
            found.setdefault(number, []).append(part)
    return found


def _parts_of(told: Told) -> list[str]:
    return Tool(told).parts


def _is_trial(told: Told) -> bool:
    opening = told.opening_of_the_job()
    return bool(opening and opening.trial)


def _went(giving: Told, part: str, taking: Told, other: str) -> bool:
    """Whether a part was handed over by one job, and taken over by the other as that other part."""
    gave = [entry for entry in giving.all(part, "handed_over") if entry.value["to"] == taking.number]
    took = [entry for entry in taking.all(other, "taken_over") if entry.value["of"] == giving.number]
    return bool(gave) and any(entry.value["goods"] in giving.names(part) for entry in took)
