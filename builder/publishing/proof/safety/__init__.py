"""Proof of safety: each notice of each lesson, found on what was published."""
