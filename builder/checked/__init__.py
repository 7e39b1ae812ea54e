"""Reading and checking as one, helped by what earlier runs kept in a project's cache."""
