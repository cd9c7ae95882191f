"""What every act has: the job, the shop, who does it, and when. And how an act is refused."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple, NoReturn

from teardown_app.domain.against.closed import against_closed
from teardown_app.domain.job.job import Job
from teardown_app.domain.lacks.lack import Lack
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.parts.naming import thing_named
from teardown_app.domain.parts.routing import Moment
from teardown_app.domain.shop.shop import Shop

Drafts = list[Draft]


class Refused(Exception):
    """The act is not allowed. `wrong` says what stands against it and where, `instead` what to do.

    `see` names the act that helps, by the name of its row; each door words it in its own way. `lacks` are
    what stands against it, empty where what was given is no answer.
    """

    def __init__(self, wrong: str, instead: str, see: str = "", lacks: Sequence[Lack] = ()) -> None:
        super().__init__(f"{wrong} {instead}")
        self.wrong = wrong
        self.instead = instead
        self.see = see
        self.lacks = tuple(lacks)


def refuse(wrong: str, instead: str, see: str = "") -> NoReturn:
    """Ends the act."""
    raise Refused(wrong, instead, see)


def refuse_for(found: Iterable[Lack]) -> None:
    """Ends the act if anything stands against it, naming all of the first kind."""
    standing = list(found)
    if not standing:
        return
    named = [one for one in standing if one.kind == standing[0].kind]
    to_do = named[0].to_do
    raise Refused(
        " ".join(dict.fromkeys(one.wrong for one in named)),
        " ".join(dict.fromkeys(one.clears for one in named)),
        to_do.act if to_do else "",
        standing,
    )


class ShopAct(NamedTuple):
    """An act on the shop's own registers."""

    shop: Shop
    by: str
    now: Moment

    def needs(self, right: str) -> None:
        """Refuses unless the person has the right today."""
        _refuse_without(right, self.rights, self.by, self.shop, self.now)

    def rights(self, clk: str) -> tuple[str, ...]:
        """What the person may do in the registers today, on this tablet, by a clock in that state."""
        return self.shop.rights_at(self.now.dev, self.by, self.now.wall[:10], clk)

    def draft(self, typ: str, ent: tuple[str, ...], **body: object) -> Draft:
        """A record for the shop's journal; fields that are None are left out."""
        return Draft("_shop", typ, ent, _said(body))


class Act(NamedTuple):
    """An act on one job."""

    job: Job
    shop: Shop
    by: str
    now: Moment

    def needs(self, right: str) -> None:
        """Refuses unless the person has the right today."""
        _refuse_without(right, self.rights, self.by, self.shop, self.now)

    def rights(self, clk: str = "") -> tuple[str, ...]:
        """What the person may do in this job today, on this tablet; by its clock, or one in another state."""
        return self.job.rights_at(self.now.dev, self.by, self.now.wall[:10], clk or self.now.clk)

    def working(self, right: str = "record") -> None:
        """Refuses without the right, and on a job that is closed."""
        self.needs(right)
        refuse_for(against_closed(self.job))

    def draft(self, typ: str, ent: tuple[str, ...], **body: object) -> Draft:
        """A record for the job's journal; fields that are None are left out."""
        return Draft(self.job.number, typ, ent, _said(body))

    def name(self, thing: str) -> str:
        """A part or a place for a sentence: number, description, place."""
        return thing_named(self.job, thing)


RIGHT_WORDS = {
    "record": "record",
    "release": "release",
    "scrap": "scrap",
    "concede": "concede",
    "sign": "sign",
    "office": "do office work",
}


def _refuse_without(right: str, rights: Callable[[str], Sequence[str]], by: str, shop: Shop, now: Moment) -> None:
    if not shop.people():
        refuse("Nobody is registered in this shop.", "Register the first person.", "shop person")
    if right in rights(now.clk):
        return
    if right in rights("ok"):
        refuse(
            f"{by} has no right to {RIGHT_WORDS[right]} while this tablet's clock is not right: it ends on a day.",
            "Set the clock, then somebody with a right that does not end confirms it.",
            "shop clock",
        )
    refuse(f"{by} has no right to {RIGHT_WORDS[right]}.", "Ask somebody who has it, or the office to give it.")


def _said(body: dict[str, object]) -> dict[str, object]:
    return {name: value for name, value in body.items() if value is not None}
