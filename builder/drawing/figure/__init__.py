"""Figures: a body and its props, drawn from the angles of its joints."""
