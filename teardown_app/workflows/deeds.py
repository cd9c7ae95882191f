"""All rows of acts, written out: those on the shop, on the job, on parts, on counted hardware and places, on labels."""

from __future__ import annotations

from teardown_app.workflows.add_line import ADD_LINE
from teardown_app.workflows.amend import AMEND
from teardown_app.workflows.approval import ANSWER
from teardown_app.workflows.between_jobs import HARDWARE_BACK, HARDWARE_OVER, LIKE_BACK, PART_BACK, PART_OVER
from teardown_app.workflows.bring_in import BRING_IN
from teardown_app.workflows.check import IMPOSSIBLE, READ
from teardown_app.workflows.close_job import CLOSE, REOPEN
from teardown_app.workflows.concede import CONCEDE
from teardown_app.workflows.configuration import RECEIVED
from teardown_app.workflows.consumable import KEEP, RENEW
from teardown_app.workflows.correct import TAKE_BACK
from teardown_app.workflows.count import COUNT
from teardown_app.workflows.deed import Deed
from teardown_app.workflows.disposition import JUDGE
from teardown_app.workflows.finding import FIND
from teardown_app.workflows.fit import FIT
from teardown_app.workflows.hardware import MOVE
from teardown_app.workflows.hold import HOLD, LIFT
from teardown_app.workflows.instrument import CLEARED, FOUND_OUT, INSTRUMENT
from teardown_app.workflows.label_queue import DROP, PRINT, REPLACE, REPRINT, ROLL, SEEN, VOID
from teardown_app.workflows.note import NOTE
from teardown_app.workflows.number import RELABEL, SAME, TAG
from teardown_app.workflows.numbering import SHEET
from teardown_app.workflows.open_job import OPEN_JOB
from teardown_app.workflows.operation import DONE, SKIP, START, STOP
from teardown_app.workflows.photograph import PHOTO
from teardown_app.workflows.put import PUT
from teardown_app.workflows.release import RELEASE
from teardown_app.workflows.shop import CARRIER, CLOCK, LEAVE, PERSON, PIN, PLACE
from teardown_app.workflows.sign import SIGN
from teardown_app.workflows.tablets import JOIN, RETIRE
from teardown_app.workflows.take_off import OFF
from teardown_app.workflows.take_out import OUT
from teardown_app.workflows.temporary import PUT_IN, TAKE_OUT
from teardown_app.workflows.torque import OPEN, TORQUE
from teardown_app.workflows.wait import WAIT_OVER

DEEDS: tuple[Deed, ...] = (
    *(PERSON, LEAVE, PIN, PLACE, CARRIER, CLOCK, JOIN, RETIRE, INSTRUMENT, FOUND_OUT, CLEARED),
    *(OPEN_JOB, AMEND, CONCEDE, SIGN, CLOSE, REOPEN, TAKE_BACK, RECEIVED, ADD_LINE),
    *(OFF, TAG, RELABEL, SAME, NOTE, PUT, FIND, ANSWER, JUDGE, BRING_IN, PHOTO, HOLD, LIFT),
    *(PART_OVER, PART_BACK, LIKE_BACK, HARDWARE_OVER, HARDWARE_BACK),
    *(READ, IMPOSSIBLE, START, DONE, STOP, SKIP, WAIT_OVER, RELEASE),
    *(FIT, OUT, COUNT, MOVE, TORQUE, OPEN, RENEW, KEEP, PUT_IN, TAKE_OUT),
    *(ROLL, SHEET, PRINT, SEEN, REPRINT, REPLACE, VOID, DROP),
)
