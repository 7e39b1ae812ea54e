"""The whole group on one page, for a coach's screen and for paper."""
