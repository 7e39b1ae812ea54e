"""Files to values, every scalar with its line and column."""
