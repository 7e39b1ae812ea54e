"""Figures on their own: as files, and all of a course on sheets."""
