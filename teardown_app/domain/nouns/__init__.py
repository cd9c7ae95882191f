"""Questions about the things of the trade: job, shop, part, place, joint, hold, route, reading, instrument, release.

Nothing here decides what stands against a thing; that is said in `lacks`.
"""
