"""One job as its records tell it: what counts in it, what was taken back, what a verdict rests on.

Nothing here knows what a part or a place needs.
"""
