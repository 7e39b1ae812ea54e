"""The class card: a whole class on one or two pages, for a coach who stands on the floor."""
