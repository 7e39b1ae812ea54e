"""Finished pages and PDFs, read back."""
