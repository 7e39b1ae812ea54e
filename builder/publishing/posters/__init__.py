"""Posters: pictures that stand for a course or a lesson elsewhere, drawn by the tool."""
