"""What stands against an act, one file an act: `against_…`, which filters lacks and adds what only the act asks."""
