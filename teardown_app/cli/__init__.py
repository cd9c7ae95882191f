"""Commands: the same acts as the touch app, for scripts and for whoever has no tablet at hand.

A command opens the workshop, calls a workflow, records what it gives back and says so. No rule of
the trade stands here. A file holds the commands of one topic; `table.py` lists the files.
"""
