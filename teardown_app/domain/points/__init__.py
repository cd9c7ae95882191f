"""Open points: what still stands between the job and a tool with nothing missing, one file a topic.

Points are computed from the job's state and kept nowhere. `live.py` keeps them current after each
record; `all_points` there is the plain way.
"""
