"""Findings and demand in the forms that people and programs read."""
