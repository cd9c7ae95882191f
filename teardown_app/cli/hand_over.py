"""Commands between two jobs: they say what is owed, and what is to be done where another part came back."""

from __future__ import annotations

from teardown_app.cli.deed import Doing, Told, made, told
from teardown_app.domain.parts.going_back import handed_over
from teardown_app.domain.parts.naming import named
from teardown_app.workflows.act import Act
from teardown_app.workflows.between_jobs import HARDWARE_BACK, HARDWARE_OVER, LIKE_BACK, PART_BACK, PART_OVER
from teardown_app.workflows.called import place_meant
from teardown_app.workflows.hardware import balance


def _over(doing: Doing) -> Told:
    giver, taker = doing.act, doing.fields["to"]
    lines, data = _owes(giver, taker, doing.things[0])
    return [*lines, balance(taker, place_meant(taker, doing.fields["for_"]))], data


def _back(doing: Doing) -> Told:
    return _owes(doing.act, doing.fields["from_"], doing.things[0])


def _owes(giver: Act, taker: Act, thing: str) -> Told:
    place, due = place_meant(giver, thing), handed_over(giver.job, thing, taker.job.number)
    said = f"Job {taker.job.number} owes job {giver.job.number} {due} of {named(giver.job, place.key)}."
    return [said, balance(giver, place)], {"owed": due}


def _like(doing: Doing) -> Told:
    lines, data = told(doing)
    then = "Say that it does not come back: part judge, spare. Then bring in what came: part bring-in."
    return [*lines, then], data


COMMANDS = (
    *map(made, (PART_OVER, PART_BACK)),
    made(LIKE_BACK, _like),
    made(HARDWARE_OVER, _over),
    made(HARDWARE_BACK, _back),
)
