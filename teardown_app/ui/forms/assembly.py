"""Forms of the assembly bench: taking out, screws, consumables, what is in for a time, new parts, signing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.lacks.accepting import to_accept
from teardown_app.domain.parts.naming import named
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text, whole
from teardown_app.ui.view import COUNT, TAG, Field
from teardown_app.workflows.bring_in import BROUGHT, bring_in
from teardown_app.workflows.close_job import close_job, reopen_job
from teardown_app.workflows.close_job import to_accept as closing_accepts
from teardown_app.workflows.concede import concede
from teardown_app.workflows.consumable import keep, renew
from teardown_app.workflows.fit import fit
from teardown_app.workflows.hardware import ALL, move
from teardown_app.workflows.release import ready, release, release_ready
from teardown_app.workflows.sign import MEANINGS, sign
from teardown_app.workflows.take_out import take_out
from teardown_app.workflows.temporary import put_in
from teardown_app.workflows.temporary import take_out as take_temporary_out

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk


def _nothing(desk: Desk, values: Values) -> None:
    return None


def _fit(desk: Desk, values: Values) -> None:
    part, key = str(values["part"]), str(values.get("key", ""))
    desk.act(lambda act: fit(act, [part], key=key), f"{desk.look.name(part)} is fitted.")


def _out(desk: Desk, values: Values) -> None:
    part = str(values["part"])
    desk.act(
        lambda act: take_out(act, [part], why=str(values["why"])), f"{desk.look.name(part)} is out: {values['why']}"
    )


def _put_in_screws(desk: Desk, values: Values) -> None:
    key = str(values["key"])
    desk.act(lambda act: move(act, [key], {"put in": ALL}), f"{named(desk.job, key)}: all in.")


MOVED = ("added", "put in", "taken out", "scrapped", "lost", "found short", "left over")


def _ask_move(desk: Desk, values: Values) -> Field | None:
    name = named(desk.job, str(values["key"]))
    asks = [choose("word", f"{name}: what happened?", MOVED)]
    asks.append(Field("number", f"{name}: how many {values.get('word', '')}?", COUNT))
    if values.get("word") in ("scrapped", "left over"):
        asks.append(text("why", "Why?", ("thread worn", "one more than belongs there")))
    if values.get("word") in ("lost", "found short"):
        asks.append(text("search", "Where was it searched for?", ("drip tray and sump", "bags and bench")))
    return first_open(values, *asks)


def _move(desk: Desk, values: Values) -> None:
    key, word, number = str(values["key"]), str(values["word"]), whole(values, "number")
    desk.act(
        lambda act: move(
            act, [key], {word: number}, why=str(values.get("why", "")), search=str(values.get("search", ""))
        ),
        f"{named(desk.job, key)}: {number} {word}.",
    )


def _ask_renew(desk: Desk, values: Values) -> Field | None:
    line = desk.job.positions[str(values["key"])].line
    asks = [text(what, f"{line.description}: the {what} on its bag") for what in line.write_down]
    facts = desk.job.bill.components.get(line.part_number)
    if facts is not None and facts.shelf_life_days:
        asks.append(text("expiry", "Its last day, as 2027-03-31"))
    return first_open(values, *asks)


def _renew(desk: Desk, values: Values) -> None:
    key = str(values["key"])
    given = {name: str(values.get(name, "")) for name in ("lot", "serial", "expiry")}
    desk.act(lambda act: renew(act, [key], **given), f"{named(desk.job, key)} is renewed.")


def _keep(desk: Desk, values: Values) -> None:
    key = str(values["key"])
    desk.act(lambda act: keep(act, [key]), f"{named(desk.job, key)} is kept.")


def _temporary(desk: Desk, values: Values) -> None:
    key, word = str(values["key"]), str(values["word"])
    workflow = put_in if word == "in" else take_temporary_out
    desk.act(lambda act: workflow(act, [key]), f"{named(desk.job, key)} is {word}.")


def _ask_added(desk: Desk, values: Values) -> Field | None:
    return first_open(values, text("what", "What is put in for a time? Name it", ("drain bypass hose", "port caps")))


def _added(desk: Desk, values: Values) -> None:
    what, word = str(values["what"]), str(values.get("word", "in"))
    workflow = put_in if word == "in" else take_temporary_out
    desk.act(lambda act: workflow(act, [], what=[what]), f"{what} is {word}.")


def _ask_bring(desk: Desk, values: Values) -> Field | None:
    position = desk.job.positions[str(values["key"])]
    return first_open(
        values,
        choose("origin", f"{named(desk.job, position.key)}: where does this part come from?", BROUGHT),
        text("part_number", "Its part number", tuple(sorted(desk.job.bill.fitting(position.line.position)))),
        Field("number", "Scan the label you put on it, or type its number", TAG),
    )


def _bring(desk: Desk, values: Values) -> None:
    key = str(values["key"])
    desk.act(
        lambda act: bring_in(
            act,
            key,
            part_number=str(values["part_number"]),
            origin=str(values["origin"]),
            number=str(values["number"]),
            elsewhere=desk.elsewhere,
        ),
        f"{named(desk.job, key)}: {values['origin']} part {values['number']}.",
    )


def _ask_release(desk: Desk, values: Values) -> Field | None:
    """What of the part is to be accepted is accepted with its release, or it is not released."""
    said = " ".join(one.wrong for one in to_accept(desk.job, str(values["part"])))
    return first_open(values, choose("accept", f"{said} Accept it?", (ACCEPT_IT, LEAVE_IT))) if said else None


def _release(desk: Desk, values: Values) -> None:
    part = str(values["part"])
    name, accept = desk.look.name(part), values.get("accept") == ACCEPT_IT
    desk.act(lambda act: release(act, [part], accept=accept), f"{name} is released.", weighty=f"to release {name}")


def _unticked(desk: Desk, values: Values) -> list[str]:
    """Ready parts of which something is to be accepted."""
    waiting = ready(desk.look, str(values.get("key", "")))
    return [part for part in waiting if to_accept(desk.job, part)]


def _ask_release_ready(desk: Desk, values: Values) -> Field | None:
    """Each of them by itself, left out unless it is accepted."""
    asks = []
    for part in _unticked(desk, values):
        said = " ".join(one.wrong for one in to_accept(desk.job, part))
        asks.append(choose(f"part {part}", f"{said} Accept it, and release the part?", (LEAVE_IT, ACCEPT_IT)))
    return first_open(values, *asks)


def _release_ready(desk: Desk, values: Values) -> None:
    key = str(values.get("key", ""))
    where = named(desk.job, key) if key else "the job"
    accepted = [part for part in _unticked(desk, values) if values.get(f"part {part}") == ACCEPT_IT]
    desk.act(
        lambda act: release_ready(act, key, accepted),
        f"All ready parts of {where} are released.",
        weighty=f"to release {where}",
    )


def _ask_concede(desk: Desk, values: Values) -> Field | None:
    return first_open(values, text("why", "Why is it accepted?"), text("reference", "The customer's reference for it"))


def _concede(desk: Desk, values: Values) -> None:
    key, points = str(values["point"]), desk.opened.live.points()
    point = next((one for one in points if one.key == key), None)
    desk.act(
        lambda act: concede(act, points, key, why=str(values["why"]), reference=str(values["reference"])),
        f"Conceded: {point.wrong if point else key}",
        weighty="to concede",
    )


def _ask_sign(desk: Desk, values: Values) -> Field | None:
    thing = str(values["thing"])
    what = named(desk.job, thing[1:]) if thing.startswith("@") else "the job"
    return first_open(values, choose("meaning", f"{what}: what does your signature mean?", MEANINGS))


def _sign(desk: Desk, values: Values) -> None:
    thing, meaning = str(values["thing"]), str(values["meaning"])
    desk.act(lambda act: sign(act, thing, meaning=meaning), f"Signed: {meaning}.", weighty=f"to sign as {meaning}")


ACCEPT_IT, LEAVE_IT = "accept it", "leave it open"


def _ask_close(desk: Desk, values: Values) -> Field | None:
    """Each thing that is to be accepted by itself; then what the signature means."""
    asks = [
        choose("point " + one.key, f"{one.wrong} Accept it?", (ACCEPT_IT, LEAVE_IT))
        for one in closing_accepts(desk.points())
    ]
    return first_open(values, *asks, choose("meaning", "What does your signature mean?", MEANINGS))


def _close(desk: Desk, values: Values) -> None:
    points, meaning = desk.opened.live.points(), str(values["meaning"])
    accepted = [str(values["point " + one.key]) == ACCEPT_IT and one.key for one in closing_accepts(points)]
    desk.act(
        lambda act: close_job(act, points, meaning=meaning, accept=[key for key in accepted if key]),
        "The job is closed.",
        weighty="to sign and close the job",
    )


def _reopen(desk: Desk, values: Values) -> None:
    desk.act(lambda act: reopen_job(act, why=str(values["why"])), "The job is open again.", weighty="to reopen the job")


def _why(asks: str, *words: str) -> Field:
    return text("why", asks, words)


FORMS = (
    Form("fit", "", _nothing, _fit),
    Form("out", "", lambda _, values: first_open(values, _why("Why does it come out again?", "wrong part")), _out),
    Form("screws in", "", _nothing, _put_in_screws),
    Form("move", "screws", _ask_move, _move),
    Form("renew", "consumable", _ask_renew, _renew),
    Form("keep", "", _nothing, _keep),
    Form("temporary", "", _nothing, _temporary),
    Form("added", "in for a time", _ask_added, _added),
    Form("bring in", "new part", _ask_bring, _bring),
    Form("release", "release", _ask_release, _release),
    Form("release ready", "release", _ask_release_ready, _release_ready),
    Form("concede", "concession", _ask_concede, _concede),
    Form("sign", "signature", _ask_sign, _sign),
    Form("close", "closing", _ask_close, _close),
    Form("reopen", "", lambda _, values: first_open(values, _why("Why is it opened again?")), _reopen),
)
