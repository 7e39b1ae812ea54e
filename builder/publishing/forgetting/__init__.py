"""Forgetting a person: in the records, and in what was printed from them."""
