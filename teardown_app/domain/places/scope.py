"""How a place counts: in scope, left as it was, or out. What touches a place is in scope whatever is said of it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.ledger.entry import Entry, display_order, settled
from teardown_app.domain.ledger.kinds.job import UNIT
from teardown_app.domain.ledger.record import Record, position_thing
from teardown_app.domain.parts.claiming import sides
from teardown_app.domain.parts.filling import holder
from teardown_app.domain.parts.parts import came_from
from teardown_app.domain.places.touching import is_touched, may_touch, touching


class Scope(NamedTuple):
    """How a place counts (`in`, `left`, `out`), in which word, and the entries that say so. `touched` is true
    where something was there, so that what else is said does not hold; `gone` where it was left in a unit that is
    gone."""

    counts: str
    word: str
    why: str
    entries: tuple[Entry, ...]
    touched: bool = False
    gone: bool = False


NOT_SAID = Scope("in", "", "", ())
ABSENT = Scope("out", "option absent", "", ())


class Scopes:
    """How each place counts that was asked about since the last record."""

    def __init__(self, job: Job) -> None:
        self._job = job
        self._known: dict[str, Scope] = {}

    def heed(self, touched: Iterable[str], record: Record) -> None:
        """A unit that goes takes along what was left in it, an acceptance what touched: all is asked anew."""
        self._known.clear()

    def at(self, key: str) -> Scope:
        """How one place counts."""
        known = self._known.get(key)
        if known is None:
            known = self._known[key] = _scope(self._job, key)
        return known


def scope_of(job: Job, key: str) -> Scope:
    """How a place counts."""
    if not job.speaks("scope") and not job.lacks_option(key):
        return NOT_SAID
    return job.keep(Scopes).at(key)


def _scope(job: Job, key: str) -> Scope:
    words = words_of(job, key)
    if not words and not job.lacks_option(key):
        return NOT_SAID
    absent, touched = is_out_by_option(job, key), _is_touched(job, key, words)
    if not words:
        return NOT_SAID._replace(touched=True) if touched else ABSENT
    value = settled([entry.value for entry in words], "scope")
    counts, said = value.counts, Scope("in", value.word, value.why, words)
    if touched or absent:
        return said._replace(touched=True) if touched else ABSENT
    if counts == "left" and not all(left_holds(job, key, one) for one in words if one.value.counts == "left"):
        return said._replace(gone=True)
    return said._replace(counts=counts)


def is_out_by_option(job: Job, key: str) -> bool:
    """Does an option that the tool lacks put a place out? Not one where something was, whoever had seen that."""
    return job.lacks_option(key) and not is_touched(job, key)


def words_of(job: Job, key: str) -> tuple[Entry, ...]:
    """What was said of a place or anything above it, and not replaced since; nothing reaches temporary places."""
    if job.positions[key].line.kind == "temporary" or not job.speaks("scope"):
        return ()
    ever = [entry for one in (key, *job.ancestors(key)) for entry in job.ever(position_thing(one), "scope")]
    there = (entry for entry in ever if not job.effect(entry.record))
    return tuple(one for one in there if not any(_replaces(job, other, one) for other in ever))


def _replaces(job: Job, later: Entry, earlier: Entry) -> bool:
    """One that was taken back replaces no more, but a word *out* or *left* does not return."""
    gone = bool(job.effect(later.record)) and earlier.value.counts == "in"
    return not gone and job.knowing.knew(later.record, earlier.record)


def _is_touched(job: Job, key: str, words: tuple[Entry, ...]) -> bool:
    if _came_with(words):
        return any(True for _ in _new(job, key, words))
    return is_touched(job, key)


def first_touching(job: Job, key: str) -> Record | None:
    """Of what touches a place, whatever is said of it, what was recorded first; None where nothing does."""
    words = words_of(job, key)
    found = _new(job, key, words) if _came_with(words) else touching(job, key)
    return min(found, key=display_order, default=None)


def _came_with(words: tuple[Entry, ...]) -> bool:
    """Is all that is said that it came with a unit?"""
    return bool(words) and all(entry.value.word == UNIT for entry in words)


def _new(job: Job, key: str, words: tuple[Entry, ...]) -> Iterator[Record]:
    """What touches a place and the author of a fitting had not seen: what was there before belonged to the unit that
    is gone."""
    return (one for one in touching(job, key) if any(_is_new_to(job, entry.record, one) for entry in words))


def is_touched_since(job: Job, key: str, word: Entry) -> bool:
    """Does anything touch a place which the author of a word had not seen?"""
    return any(_is_new_to(job, word.record, one) for one in touching(job, key))


def _is_new_to(job: Job, fitting: Record, one: Record) -> bool:
    return one.h != fitting.h and not job.knowing.knew(fitting, one)


def left_holds(job: Job, key: str, word: Entry) -> bool:
    """Is the unit that was there when a place was said to be left still where it was, or did another one come there
    that took along what was left in it?"""
    place, units = _unit_of(job, key, word)
    if place not in job.positions or not sides(job, place):
        return True
    now = holder(job, place)
    return now in units or (bool(now) and _took_along(job, key, place, now))


def would_stay_left(job: Job, key: str, place: str, part: str) -> bool:
    """Would a place that counts as left do so once a part fills a place above it?"""
    units = [_unit_of(job, key, one, place) for one in words_of(job, key) if one.value.counts == "left"]
    return all(part in unit or _took_along(job, key, place, part) for there, unit in units if there == place)


def _unit_of(job: Job, key: str, word: Entry, filled: str = "") -> tuple[str, set[str]]:
    """The place of the unit in which a place was left, none where there is none, and what may be that unit. `filled`
    counts as a place that a part was fitted into."""
    if word.value.word == UNIT:
        return word.record.ent[1][1:], {job.group(word.record.ent[0])[0]}
    above = job.ancestors(key)
    near = next((one for one in above if one == filled or came_from(job, one) or sides(job, one)), "")
    return near, (_unit_seen(job, near, word.record) or set(came_from(job, near))) if near else set()


def _unit_seen(job: Job, key: str, author: Record) -> set[str]:
    """Parts that claimed a place as far as an author had seen."""
    seen = [entry for entry in job.entries(position_thing(key), "filled") if job.knowing.knew(author, entry.record)]
    last = [one for one in seen if not any(job.knowing.knew(other.record, one.record) for other in seen)]
    return {job.group(entry.value)[0] for entry in last if entry.value}


def _took_along(job: Job, key: str, place: str, part: str) -> bool:
    """Was what lies beneath another place of the line as this one does beneath `place` left in the part, and is it
    still as it was?"""
    line = job.positions[place].line.position
    others = (one.key for one in job.bill.positions_of(line) if one.key != place)
    return any(_is_left_in(job, other + key.removeprefix(place), other, part) for other in others)


def _is_left_in(job: Job, key: str, place: str, part: str) -> bool:
    """Does a word that counts say that a place was left in this part, as the unit of `place`?"""
    if key not in job.positions or _is_touched(job, key, words_of(job, key)):
        return False
    left = (one for one in words_of(job, key) if one.value.counts == "left")
    return any(there == place and part in units for there, units in (_unit_of(job, key, one) for one in left))


def said_of(job: Job, key: str) -> list[Record]:
    """All that was ever said of a place: words on it and above, the tool's options, and whatever touches it."""
    above = (key, *job.ancestors(key))
    words = [entry.record for one in above for entry in job.ever(position_thing(one), "scope")]
    options = [entry.record for entry in job.ever(JOB, "options") if entry.record.typ == "job.amended"]
    return [*words, *options, *may_touch(job, key)]
