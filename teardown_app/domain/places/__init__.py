"""Questions about a place: whether it counts, what opens it, its checks, joints, consumables, hardware.

Nothing here decides what stands against a place; that is said in `lacks`.
"""
