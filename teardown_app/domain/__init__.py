"""The trade, pure: bill, position, part, tag, records, facets, open points. Reads and writes nothing."""
