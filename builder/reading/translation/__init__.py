"""Translations beside their originals: words read, held against the original, and put together."""
