"""The commands, as thin shells."""
