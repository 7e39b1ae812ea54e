"""Check a movement and breathing course, then build its website and cards."""

__version__ = "0.1.0"
