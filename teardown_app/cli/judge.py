"""The command that says what is to become of parts: it tells where that is milder than before."""

from __future__ import annotations

from collections.abc import Sequence

from teardown_app.cli.deed import Doing, Told, made, said_of, told
from teardown_app.domain.parts.parts import disposition_of
from teardown_app.workflows.act import Act
from teardown_app.workflows.disposition import JUDGE, is_milder


def _milder(act: Act, parts: Sequence[str], *, as_: str, why: str = "") -> dict[str, str]:
    before = {part: disposition_of(act.job, part) for part in parts if is_milder(act, part, as_)}
    return {part: f", milder than {word} before" for part, word in before.items()}


def _judged(doing: Doing) -> Told:
    lines = [f"{said_of(doing, part).removesuffix('.')}{doing.before.get(part, '')}." for part in doing.things]
    return lines, told(doing)[1]


COMMANDS = (made(JUDGE, _judged, before=_milder),)
