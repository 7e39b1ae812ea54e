"""Whether a finished PDF can be read without seeing it: its tags, held against ISO 14289-1."""
