"""Questions about a part: its name, its seat, what it fills, its route, its readings' instruments, what is conceded.

Nothing here decides what stands against a part; that is said in `lacks`.
"""
