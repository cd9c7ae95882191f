"""Lacks: what stands against a thing, one file a noun. Only here, and for acts in `against`, it is decided.

Open points, release, refusals, ticks, progress and the next step filter lacks; none of them works a rule
out again.
"""
