"""Proof that a finished site says nothing about the people of a studio."""
