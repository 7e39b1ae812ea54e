"""What must hold of a course; one file a rule family."""
