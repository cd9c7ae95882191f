"""One act a file: from a job, the shop, a person and what was entered to the records to write.

A workflow touches no disk and changes no state. It returns drafts, or raises `Refused` with what to do
instead. What the trade allows is asked of the domain room.
"""
