"""Witness: counted hardware in its bags, and torques of joints.

Written from `docs/formats/open-points.md` (section 4, A torque counts; section 5, Hardware) alone.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from teardown_app.domain.bill.bill import Joint
from teardown_app.domain.ledger.record import Record
from tests.open_points.naive_back import Lying
from tests.open_points.naive_doubt import Doubts, converted, hours_between, is_in_date, quantity
from tests.open_points.naive_entries import Entry
from tests.open_points.naive_ground import Ground
from tests.open_points.naive_tool import Place

WHOLE_PASSES = ("again", "after first heat")


class Hardware:
    """Screws and what they hold."""

    def __init__(self, ground: Ground, doubts: Doubts) -> None:
        self.ground, self.doubts = ground, doubts
        self.tool, self.told, self.back = ground.tool, ground.told, ground.back

    # -- bags ----------------------------------------------------------------------------------------

    def bag(self, name: str) -> list[str]:
        """ "Places that were ever counted together (by counts that have effect) are one bag, and so on through
        them."."""
        bag = {name}
        counts = [set(entry.value[1]) for entry in self.told.entries if entry.fact == "found"]
        for _ in counts:
            bag |= {each for count in counts if count & bag for each in count}
        return sorted(bag)

    def unreplaced(self, bag: list[str]) -> list[Entry]:
        """Unreplaced counts that name the whole bag: "a count that does not name the whole bag replaces nothing and
        holds for nothing"."""
        whole = [each for each in self.told.all(bag[0], "found") if set(each.value[1]) == set(bag)]
        return [one for one in whole if not any(self.told.saw(other.record, one.record) for other in whole)]

    def holding(self, bag: list[str]) -> list[Entry]:
        """ "What holds is the unreplaced count that names the whole bag; several that differ: the smaller"."""
        left = self.unreplaced(bag)
        return [each for each in left if each.value[0] == min(one.value[0] for one in left)]

    def differs(self, bag: list[str]) -> bool:
        """ "several that differ: *two different entries*. So it is, at every place of the bag, where one holds and a
        count of fewer places is there that it does not replace."."""
        left = self.unreplaced(bag)
        return len({each.value[0] for each in left}) > 1 or bool(left and self._of_fewer_places(bag))

    def _of_fewer_places(self, bag: list[str]) -> list[Entry]:
        """Counts of a part of the bag that no count of the whole bag replaced: "A count replaces one that its author
        had seen and all of whose places it names"."""
        every = [each for name in bag for each in self.told.all(name, "found")]
        whole = [each for each in every if set(each.value[1]) == set(bag)]
        fewer = [each for each in every if each not in whole]
        return [e for e in fewer if not any(self.told.saw(one.record, e.record) for one in whole)]

    def balances(self, place: Place) -> bool:
        """Whether the point does not stand at this place."""
        bag = self.bag("@" + place.key)
        if self.put_in(["@" + place.key]) != place.screws:
            return False
        here = [each for each in self.tool.places.values() if each.kind == "hardware" and "@" + each.key in bag]
        return here[0] != place or self._bag_balances(bag, sum(each.screws for each in here))

    def _bag_balances(self, bag: list[str], bill: int) -> bool:
        """ "no count holds, or L + H is less than C - F, or max(C, F) + A is not P + S + L + H + O"."""
        counted = self.holding(bag)
        if not counted:
            return False
        found = counted[0].value[0]
        named = self._sum(bag, "lost", "found_short")
        put = self.put_in(bag) + self._sum(bag, "scrapped", "lost", "found_short", "left_over")
        return bool(named >= bill - found) and max(bill, found) + self._sum(bag, "added") == put

    def put_in(self, names: list[str]) -> int:
        """ "A put in below zero counts only where one above zero counts that its author had seen."."""
        total = 0
        for name in names:
            moves = [each for each in self.told.all(name, "put_in") if self._counts_as_put_in(each)]
            above = [each for each in moves if each.value > 0]
            out = [each for each in moves if each.value < 0]
            total += sum(each.value for each in above)
            total += sum(e.value for e in out if any(self.told.saw(e.record, one.record) for one in above))
        return total

    def _counts_as_put_in(self, move: Entry) -> bool:
        """ "A put in (above or below zero) counts only for the unit, and where the joint of the place asks no torque
        only on its ground"."""
        key = move.name.removeprefix("@")
        if not self.ground.units.counts(move.record, key):
            return False
        return self._asks_torque(key) or self.back.stands(move.record, self.ground.of_put_in(key))

    def _asks_torque(self, key: str) -> bool:
        """ "A joint without `torque_nm` asks nothing", nor does a place without a joint."""
        place = self.tool.places.get(key)
        return bool(place and place.line.joint and place.line.joint.torque_nm is not None)

    def _sum(self, names: list[str], *facts: str) -> int:
        return sum(entry.value for name in names for fact in facts for entry in self.told.all(name, fact))

    # -- torques -------------------------------------------------------------------------------------

    def passes(self, joint: Joint) -> list[str]:
        """ "Passes: those of the joint in percent (none: 100)"."""
        return [f"{each.normalize():f}" for each in joint.passes or (Decimal(100),)]

    def passes_due(self, place: Place) -> list[str]:
        """Passes that are not done: "when the `screws` of the torques that count for it reach the place's count"."""
        joint = place.line.joint
        if joint is None or joint.torque_nm is None or place.added:
            return []
        asked = self.passes(joint)
        asked += ["again"] if joint.retighten_h is not None else []
        asked += ["after first heat"] if joint.retighten_heat else []
        counting = [each for each in self.told.all("@" + place.key, "torque") if self.counts(place, joint, each)]
        return [each for each in asked if _screws(counting, each) < place.screws]

    def counts(self, place: Place, joint: Joint, torque: Entry) -> bool:
        """ "**A torque counts** when it stands on its ground, no finding out that touches it stands against its
        wrench", it counts for the unit, its value is near its target, the wrench may be used, and a pass *again* was
        late enough."""
        if not self.back.stands(torque.record, self.ground.of_torque(place.key)) or self.doubts.is_in_doubt(torque):
            return False
        if not self.ground.units.counts(torque.record, place.key):
            return False
        name, asked = torque.value["pass"], self.passes(joint)
        if name not in (*asked, *WHOLE_PASSES):
            return False
        by_hand = name in asked[:-1] and "torque" not in torque.value and "instrument" not in torque.value
        if not by_hand and not self._is_near_target(joint, torque):
            return False
        if name not in asked[:-1] and not self._wrench_serves(torque):
            return False
        return name != "again" or self._is_late_enough(place, joint, torque)

    def _is_near_target(self, joint: Joint, torque: Entry) -> bool:
        """ "its `torque` is within the joint's `tolerance` (percent, 10 where empty) of the target of its pass:
        `torque_nm` times the pass in percent; *again* and *after first heat* are 100. Ends included."."""
        value = _newton_metres(torque.value.get("torque"))
        share = Fraction(100) if torque.value["pass"] in WHOLE_PASSES else Fraction(torque.value["pass"])
        target = Fraction(joint.torque_nm or 0) * share / 100
        off = target * Fraction(joint.tolerance_percent) / 100
        return value is not None and target - off <= value <= target + off

    def _wrench_serves(self, torque: Entry) -> bool:
        """ "where the register as it was for its author has a wrench in use: `instrument` names one of these, its
        `due` is not before the record's day, the record's clock is *ok*, and the value is not below `low` nor above
        `high` where given"."""
        wrenches = self.doubts.wrenches(torque.record)
        if not wrenches:
            return True
        value, record = _newton_metres(torque.value.get("torque")), torque.record
        bodies = wrenches.get(torque.value.get("instrument", ""), [])
        return bool(bodies) and record.clk == "ok" and all(_reaches(body, record, value) for body in bodies)

    def _is_late_enough(self, place: Place, joint: Joint, torque: Entry) -> bool:
        """ "a pass *again* has `early`, or, by clocks that are *ok*, `retighten_h` lay after every torque of the last
        pass in percent that counts and its author had seen, and these were all screws"."""
        if torque.value.get("early"):
            return True
        last = self.passes(joint)[-1]
        before = [
            each
            for each in self.told.all("@" + place.key, "torque")
            if each.value["pass"] == last
            and self.told.saw(torque.record, each.record)
            and self.counts(place, joint, each)
        ]
        hours = joint.retighten_h or Decimal(0)
        waited = all(hours_between(each.record, torque.record) >= hours for each in before)
        return waited and _screws(before, last) >= place.screws

    def of_joint(self, key: str) -> list[Lying]:
        """ "joint.torqued at it, the ground of a torque, what was found out about its wrenches"."""
        found_out = self.doubts.of_instruments(self.told.all("@" + key, "torque"))
        torqued = self.ground.about(("joint.torqued",), [key])
        return torqued + self.ground.of_torque(key) + [(each, "") for each in found_out]


def _screws(torques: list[Entry], wanted: str) -> int:
    return sum(entry.value["screws"] for entry in torques if entry.value["pass"] == wanted)


def _newton_metres(measured: Any) -> Fraction | None:
    """A torque as typed, in newton metres; None where it is none."""
    if not isinstance(measured, dict):
        return None
    return converted(quantity(f"{measured.get('text', '')} {measured.get('unit', '')}"), "N m")


def _reaches(body: dict[str, Any], record: Record, value: Fraction | None) -> bool:
    """Whether a wrench was in date on the record's day, and its range holds the value."""
    if not is_in_date(body, record):
        return False
    for name, sign in (("low", 1), ("high", -1)):
        if body.get(name):
            edge = quantity(body[name])
            end = converted(edge if edge and edge.unit else quantity(f"{body[name]} {body.get('unit', '')}"), "N m")
            if end is None or value is None or sign * (value - end) < 0:
                return False
    return True
