"""Writes that are whole or not at all, a cache by content, a pool of workers."""
