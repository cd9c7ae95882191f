"""What is written: records, their kinds and facets, who had seen what, and how a set of records folds into values."""
