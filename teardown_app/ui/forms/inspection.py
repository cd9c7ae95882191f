"""Forms about a part: findings, readings, disposition, holds, what is written down, answers of the customer."""

from __future__ import annotations

from typing import TYPE_CHECKING

from teardown_app.domain.ledger.kinds.part import APPROVALS, DISPOSITIONS
from teardown_app.domain.parts.parts import word_of
from teardown_app.ui.form import Form, Values
from teardown_app.ui.forms.asking import choose, first_open, text
from teardown_app.ui.view import Field
from teardown_app.workflows.approval import answer
from teardown_app.workflows.disposition import judge, right_for
from teardown_app.workflows.finding import note_finding
from teardown_app.workflows.hold import lift_hold, place_hold
from teardown_app.workflows.note import note

if TYPE_CHECKING:
    from teardown_app.ui.desk import Desk

CANNOT = "cannot be measured"


def _ask_finding(desk: Desk, values: Values) -> Field | None:
    words = desk.workshop.words
    asked = first_open(
        values,
        text("word", "What is found? One of the shop's words, or your own", tuple(words["finding"])),
        choose("cause", "What caused it?", words["causes"]),
    )
    if asked is None and values["word"] not in words["finding"]:
        return first_open(values, text("note", f"{values['word']}: say in a sentence what is meant"))
    return asked


def _finding(desk: Desk, values: Values) -> None:
    part, word = str(values["part"]), str(values["word"])
    desk.act(
        lambda act: note_finding(
            act,
            [part],
            word=word,
            cause=str(values["cause"]),
            words=desk.workshop.words,
            note=str(values.get("note", "")),
        ),
        f"{desk.look.name(part)}: {word}.",
    )


def _ask_disposition(desk: Desk, values: Values) -> Field | None:
    asks = [choose("as", f"{desk.look.name(str(values['part']))}: what is to become of it?", DISPOSITIONS)]
    if values.get("as") not in (None, "use as is"):
        asks.append(
            text("why", f"{values['as']}: why?", ("as the finding says", "worn beyond the limit"), may_be_empty=True)
        )
    return first_open(values, *asks)


def _disposition(desk: Desk, values: Values) -> None:
    part, word = str(values["part"]), str(values["as"])
    weighty = f"{word}, {desk.look.name(part)}" if right_for(desk.look, part, word) != "record" else ""
    desk.act(
        lambda act: judge(act, [part], as_=word, why=str(values.get("why", ""))),
        f"{desk.look.name(part)}: {word}.",
        weighty=weighty,
    )


def _ask_why(asks: str, *words: str) -> Field:
    return text("why", asks, words)


def _hold(desk: Desk, values: Values) -> None:
    thing = str(values["thing"])
    desk.act(lambda act: place_hold(act, [thing], why=str(values["why"])), f"On hold: {values['why']}")


def _lift(desk: Desk, values: Values) -> None:
    thing = str(values["thing"])
    desk.act(
        lambda act: lift_hold(act, [thing], why=str(values["why"])), "The hold is lifted.", weighty="to lift the hold"
    )


def _ask_note(desk: Desk, values: Values) -> Field | None:
    what = choose("what", "What is written on it?", ("serial", "lot", "part number", "in own words"))
    return first_open(values, what, text("text", f"The {values.get('what', '')}"))


def _note(desk: Desk, values: Values) -> None:
    part, what, said = str(values["part"]), str(values["what"]), str(values["text"]).strip()
    given: Values = {"says": said} if what == "in own words" else {"part_number": said} if what == "part number" else {}
    written = {what: said} if what in ("serial", "lot") else {}
    conditions = desk.workshop.words["conditions"]
    desk.act(lambda act: note(act, [part], conditions=conditions, written=written, **given), f"{what}: {said}")


def _ask_answer(desk: Desk, values: Values) -> Field | None:
    word = word_of(desk.job, str(values["finding"]))
    asks = [choose("as", f"{word}: what does the customer say?", APPROVALS)]
    if values.get("as") not in (None, "covered"):
        asks.append(text("reference", "The customer's reference: mail or order number"))
    return first_open(values, *asks)


def _answer(desk: Desk, values: Values) -> None:
    finding, word = str(values["finding"]), str(values["as"])
    desk.act(
        lambda act: answer(act, [finding], as_=word, reference=str(values.get("reference", ""))),
        f"{word_of(desk.job, finding)}: {word}.",
    )


FORMS = (
    Form("finding", "finding", _ask_finding, _finding),
    Form("disposition", "disposition", _ask_disposition, _disposition),
    Form("hold", "hold", lambda desk, values: first_open(values, _ask_why("Why must it not go on?")), _hold),
    Form("lift", "hold", lambda desk, values: first_open(values, _ask_why("Why may it go on?")), _lift),
    Form("note", "written on it", _ask_note, _note),
    Form("answer", "customer's answer", _ask_answer, _answer),
)
