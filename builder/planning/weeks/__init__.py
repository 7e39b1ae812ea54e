"""The weeks ahead: which strands on which class day, so that most people reach the aim."""
