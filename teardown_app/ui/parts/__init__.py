"""Parts that screens are made of: plates to touch, rows, card, drawing, pads, scan line, band.

Each is a `.py` that says what it can be given and what it tells, and a `.kv` that says how it looks.
None knows a presenter; what was touched is an event.
"""
