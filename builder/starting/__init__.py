"""Starting: a studio's own course, chosen from the starter."""
