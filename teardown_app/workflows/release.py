"""Release: a person with the right says that a part may be fitted, and what that rests on."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.domain.against.release import against_release
from teardown_app.domain.job.job import JOB, Job
from teardown_app.domain.lacks.accepting import to_accept
from teardown_app.domain.lacks.release import is_released
from teardown_app.domain.ledger.record import Draft
from teardown_app.domain.parts.naming import named
from teardown_app.domain.parts.parts import own_place
from teardown_app.domain.parts.parts import parts as domain_parts
from teardown_app.domain.parts.seat import line_names
from teardown_app.domain.signed.release import covers
from teardown_app.workflows.act import Act, Drafts, refuse, refuse_for
from teardown_app.workflows.called import place_meant
from teardown_app.workflows.deed import FLAG, PART, PLACE, Deed, Field


def release(act: Act, chosen: Sequence[str], *, accept: bool = False) -> Drafts:
    """Releases these parts in one record. Refuses with everything that any of them lacks.

    A release accepts what was said of a part, changed or taken back: `accept` says that this is meant.
    """
    act.working("release")
    if not chosen:
        refuse("No part is named.", "Scan the parts, or release all that are ready.")
    wrong = [said for part in chosen for said in _against(act, part)]
    if wrong:
        refuse(" ".join(said for said, _ in wrong), " ".join(dict.fromkeys(clears for _, clears in wrong)))
    if not accept:
        refuse_for(one for part in chosen for one in to_accept(act.job, part))
    return [_released(act, chosen)]


def release_ready(act: Act, beneath: str = "", accepted: Sequence[str] = ()) -> Drafts:
    """Releases all parts that lack nothing but their release, of the job or beneath one assembly.

    Parts of which something is to be accepted stay out but those of `accepted`.
    """
    act.working("release")
    if beneath:
        place_meant(act, beneath)
    found = [part for part in ready(act, beneath) if part in accepted or not to_accept(act.job, part)]
    if not found:
        where = f" in {named(act.job, beneath)}" if beneath else ""
        refuse(f"No part{where} is ready for release.", "See what each lacks.", "part show")
    return [_released(act, found)]


def ready(act: Act, beneath: str = "") -> list[str]:
    """Parts that lack nothing but their release."""
    found = [part for part in domain_parts(act.job) if not beneath or _is_beneath(act.job, part, beneath)]
    return [part for part in found if not _against(act, part)]


def _is_beneath(job: Job, part: str, key: str) -> bool:
    place = own_place(job, part)
    return place == key or (place in job.positions and key in job.ancestors(place))


def _against(act: Act, part: str) -> list[tuple[str, str]]:
    """(What stands against the release of a part, what clears it)."""
    if is_released(act.job, part):
        return [(f"{act.name(part)} is released already.", "Leave it out.")]
    return [(lack.wrong, lack.clears) for lack in against_release(act.job, part, act.now)]


def _released(act: Act, chosen: Sequence[str]) -> Draft:
    rests_on = {part: list(covers(act.job, part)) for part in chosen}
    lines = {part: line_names(act.job, part) for part in chosen}
    return act.draft("part.released", tuple(chosen), covers=rests_on, lines=lines)


def release_named(
    act: Act, *, parts: Sequence[str] = (), ready: bool = False, beneath: str = "", accept: bool = False
) -> Drafts:
    """Releases the parts that are named, or all that are ready."""
    if ready == bool(parts) or (beneath and not ready):
        refuse(
            "It is not clear what to release.",
            "Name parts, or release all that are ready.",
        )
    if ready:
        return release_ready(act, beneath, domain_parts(act.job) if accept else ())
    return release(act, parts, accept=accept)


RELEASE = Deed(
    name="part release", about=JOB, do=release_named, writes=("part.released",),
    says="Release parts, or all that are ready. Needs the right to release.",
    example="PO-7781 --ready --beneath 10 --by OF",
    done="{name} is released.",
    fields=(
        Field("parts", says="number on the part's label, or the place it belongs to", sort=PART, many=True, first=True),
        Field("ready", says="all parts that lack nothing but their release", sort=FLAG),
        Field("accept", says="and accept what was said or taken back of them", sort=FLAG),
        Field("beneath", says="with --ready: of this assembly only", sort=PLACE),
    ),
)  # fmt: skip
