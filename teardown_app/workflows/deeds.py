"""All rows of acts, written out."""

from __future__ import annotations

from teardown_app.workflows.add_line import ADD_LINE
from teardown_app.workflows.amend import AMEND
from teardown_app.workflows.approval import ANSWER
from teardown_app.workflows.between_jobs import HARDWARE_BACK, HARDWARE_OVER, LIKE_BACK, PART_BACK, PART_OVER
from teardown_app.workflows.close_job import CLOSE, REOPEN
from teardown_app.workflows.concede import CONCEDE
from teardown_app.workflows.configuration import RECEIVED
from teardown_app.workflows.consumable import KEEP, RENEW
from teardown_app.workflows.correct import TAKE_BACK
from teardown_app.workflows.count import COUNT
from teardown_app.workflows.deed import Deed
from teardown_app.workflows.disposition import JUDGE
from teardown_app.workflows.fit import FIT
from teardown_app.workflows.hardware import MOVE
from teardown_app.workflows.hold import HOLD, LIFT
from teardown_app.workflows.note import NOTE
from teardown_app.workflows.number import SAME
from teardown_app.workflows.operation import DONE, SKIP, START, STOP
from teardown_app.workflows.put import PUT
from teardown_app.workflows.release import RELEASE
from teardown_app.workflows.shop import CARRIER, PLACE
from teardown_app.workflows.sign import SIGN
from teardown_app.workflows.take_out import OUT
from teardown_app.workflows.temporary import PUT_IN, TAKE_OUT
from teardown_app.workflows.torque import OPEN, TORQUE
from teardown_app.workflows.wait import WAIT_OVER

DEEDS: tuple[Deed, ...] = (
    PLACE,
    CARRIER,
    AMEND,
    CONCEDE,
    SIGN,
    CLOSE,
    REOPEN,
    TAKE_BACK,
    RECEIVED,
    ADD_LINE,
    SAME,
    NOTE,
    PUT,
    COUNT,
    JUDGE,
    ANSWER,
    PART_OVER,
    PART_BACK,
    LIKE_BACK,
    HARDWARE_OVER,
    HARDWARE_BACK,
    HOLD,
    LIFT,
    START,
    DONE,
    STOP,
    SKIP,
    WAIT_OVER,
    RELEASE,
    FIT,
    OUT,
    MOVE,
    TORQUE,
    OPEN,
    RENEW,
    KEEP,
    PUT_IN,
    TAKE_OUT,
)
