"""Tablets of the shop: a founding of another first person is joined, a tablet that is lost is retired."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.ledger.record import SHOP
from teardown_app.workflows.act import Drafts, ShopAct, refuse
from teardown_app.workflows.deed import RECORD, WHOLE, Deed, Field


def join(act: ShopAct, *, founding: str, why: str) -> Drafts:
    """The records of tablets of another founding count in this shop, whenever they were made."""
    act.needs("office")
    found = act.shop.of_ref(founding)
    if not found or any(one.typ != "person.given" or one.body.get("code") != one.act for one in found):
        refuse(f"{founding} is no record by which a first person registered.", "Take its name from the open points.")
    if not why.strip():
        refuse("Joining needs its reason.", "Say how these tablets came to have a first person of their own.")
    return [act.draft("founding.joined", (f"founding:{founding}",), founding=founding, why=why.strip())]


def retire(act: ShopAct, *, tablet: str, of: str, last: int, reference: str, without: Sequence[int] = ()) -> Drafts:
    """Of a tablet that is lost nothing is waited for after its record number `last` (0: nothing at all), and none of
    the numbers `without` up to there."""
    act.needs("office")
    if last < 0:
        refuse(f"{last} is no number of a record.", "Give the last record that is here; 0 where none is.")
    wrong = [number for number in without if not 0 < number <= last]
    if wrong:
        refuse(f"{wrong[0]} is no number from 1 to {last}.", "What comes after the last is not waited for anyhow.")
    if not tablet.strip() or not of.strip() or not reference.strip():
        refuse("Retiring a tablet needs its name, the job and a reference.", "The open point names the tablet.")
    body: dict[str, object] = {
        "tablet": tablet.strip(),
        "journal": of.strip(),
        "last": last,
        "reference": reference.strip(),
    }
    if without:
        body["without"] = sorted({*without})
    return [act.draft("tablet.retired", (f"tablet:{tablet.strip()}",), **body)]


JOIN = Deed(
    name="shop join", about=SHOP, do=join, writes=("founding.joined",),
    says="Join tablets on which another first person registered. Needs the right to do office work.",
    example="--founding _shop:t7k3m9~0:1:1a2b3c4d --why 'set up at home' --by OF",
    done="Joined: {founding}",
    fields=(Field("founding", says="name of the record by which that person registered", sort=RECORD, needed=True),
            Field("why", says="the reason", needed=True)),
)  # fmt: skip
RETIRE = Deed(
    name="shop retire", about=SHOP, do=retire, writes=("tablet.retired",),
    says="Wait no longer for records of a tablet that is lost. Needs the right to do office work.",
    example="--tablet t7k3m9~0 --of J7K3M00018 --last 14 --without 9 --reference 'stolen, report 2026-118' --by OF",
    done="Of tablet {tablet} nothing is waited for after record {last}.",
    fields=(Field("tablet", says="name of the tablet, as the open point gives it", needed=True),
            Field("of", says="number of the job, or _shop", needed=True),
            Field("last", says="number of its last record that is here; 0 where none is; if it goes on, one far above",
                  sort=WHOLE, needed=True),
            Field("without", says="number of a record before that, which was lost", sort=WHOLE, many=True),
            Field("reference", says="what shows that it is lost", needed=True)),
)  # fmt: skip
