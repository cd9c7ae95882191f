"""Scope words that narrow: *out* and *left* said of places that nobody touched."""

from __future__ import annotations

from collections.abc import Iterator

from teardown_app.domain.job.accepting import acceptors
from teardown_app.domain.job.job import Job
from teardown_app.domain.job.measured import Measured, Narrowing, is_accepted
from teardown_app.domain.ledger.entry import Entry, settled
from teardown_app.domain.ledger.kinds.job import UNIT
from teardown_app.domain.ledger.record import Record, is_position, position_thing
from teardown_app.domain.ledger.remembered import remembered
from teardown_app.domain.parts.conceding import may_be_conceded
from teardown_app.domain.places.checking import place_checks
from teardown_app.domain.places.scope import is_out_by_option, is_touched_since, left_holds, scope_of, words_of

MILD_TO_STRICT = ("out", "left", "in")


class Words:
    """For each place the records whose words about it, and all beneath it, are one point there."""

    def __init__(self, job: Job) -> None:
        self._said: dict[str, list[Record]] = {}
        for record in (*job.of_kind("configuration.received"), *job.of_kind("part.fitted")):
            self.heed(set(), record)

    def heed(self, touched: set[str], record: Record) -> None:
        """Told of each record."""
        if record.typ == "configuration.received" or record.body.get("came_with"):
            for place in places_of_word(record):
                self._said.setdefault(place, []).append(record)

    def at(self, thing: str) -> list[Record]:
        """Those of one place, with effect or without."""
        return self._said.get(thing, [])


def scope_narrowings(job: Job, thing: str) -> Iterator[Narrowing]:
    """Words about a place and all beneath it, by records that name this place."""
    if not job.speaks("scope"):
        return
    for record in (one for one in job.keep(Words).at(thing) if not job.effect(one)):
        cells: dict[str, Record] = {}
        for key in reached_by(job, record, thing):
            if any(entry.record.h == record.h for entry in narrowing_words(job, key)):
                cells.update((entry.record.h, entry.record) for entry in scope_cell(job, key))
        if cells:
            yield Narrowing(record, thing, "office", tuple(cells.values()))


def places_of_word(record: Record) -> tuple[str, ...]:
    """Places that points about the words of a record are about: each that it names; none for other records."""
    if record.typ not in ("configuration.received", "part.fitted"):
        return ()
    return tuple(dict.fromkeys(thing for thing in record.ent if is_position(thing)))


def reached_by(job: Job, record: Record, thing: str) -> list[str]:
    """Places that the words of a record reach, as far as one point is about them: the place it names and all beneath
    it, and of a fitting what came with the unit."""
    named = list(record.body.get("came_with", ())) if record.typ == "part.fitted" else [thing[1:]]
    known = [key for key in named if key in job.positions]
    return list(dict.fromkeys(one for key in known for one in (key, *(each.key for each in job.beneath(key)))))


def scope_cell(job: Job, key: str) -> list[Entry]:
    """All words on a place and above it, taken back or not; words do not reach temporary places."""
    if job.positions[key].line.kind == "temporary":
        return []
    return [entry for one in (key, *job.ancestors(key)) for entry in job.ever(position_thing(one), "scope")]


@remembered
def narrowing_words(job: Job, key: str) -> list[Entry]:
    """Words that narrow what is asked of one place; of an option that was amended away, protective readings."""
    if scope_of(job, key).counts == "in":
        return []
    narrow: tuple[str, ...] = ("left", "out")
    if is_out_by_option(job, key):
        narrow = ("out",) if _keeps_readings(job, key) else ()
    cell = Measured(job, scope_cell(job, key), _is_milder, lambda entry: _was_accepted(job, key, entry))
    return [word for word in words_of(job, key) if word.value.counts in narrow and cell.against(word)]


def _keeps_readings(job: Job, key: str) -> bool:
    """Are protective readings asked at a place of an option that only an amendment took away?"""
    if job.opening_lacked_option(key):
        return False
    return any(not may_be_conceded(needed.check) for needed in place_checks(job, job.positions[key]))


def _is_milder(entry: Entry, earlier: Entry | None) -> bool:
    before = earlier.value.counts if earlier else "in"
    return MILD_TO_STRICT.index(entry.value.counts) < MILD_TO_STRICT.index(before)


def _was_accepted(job: Job, key: str, word: Entry) -> bool:
    """What was agreed of a unit that is gone says nothing of the next one, nor of what was opened in it since."""
    if word.value.counts == "left" and not left_holds(job, key, word):
        return False
    if word.value.word == UNIT and is_touched_since(job, key, word):
        return False
    points = points_over(job, key, word.record)
    return any(acceptors(job, word.record, thing, "office", by_release=False) for thing in points)


def points_over(job: Job, key: str, record: Record) -> list[str]:
    """Places that a point about the words of a record is about, and that lie at or above a place."""
    places = places_of_word(record)
    if record.typ == "part.fitted":
        return [*places]
    return [place for place in map(position_thing, (key, *job.ancestors(key))) if place in places]


def reaches_protective(job: Job, key: str) -> bool:
    """Does what says that a place is out reach its protective readings? A word while it is accepted, an option only
    where the opening lacked it already."""
    if is_out_by_option(job, key) and (job.opening_lacked_option(key) or not _is_said_out(job, key)):
        return job.opening_lacked_option(key)
    records = {word.record.h: word.record for word in narrowing_words(job, key)}
    points = {thing for record in records.values() for thing in points_over(job, key, record)}
    waiting = (one for thing in points for one in scope_narrowings(job, thing))
    return all(is_accepted(job, one) for one in waiting if one.record.h in records)


def _is_said_out(job: Job, key: str) -> bool:
    """Do words say that a place is out, whatever options the tool has?"""
    words = [entry.value for entry in words_of(job, key)]
    return bool(words) and settled(words, "scope").counts == "out"
