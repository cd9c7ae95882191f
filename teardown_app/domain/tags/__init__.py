"""Numbers on labels: what they look like, slips of the hand, other keyboards, action codes."""
