"""Paper for people outside: what left the shop and has to be known by those who have it."""
