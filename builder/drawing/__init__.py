"""Values to SVG text."""
