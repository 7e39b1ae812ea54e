"""Lessons as words that are ready to print, for pages and cards alike."""
