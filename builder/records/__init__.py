"""Records: who comes, what was measured and how each lesson went, on the coach's own machine."""
