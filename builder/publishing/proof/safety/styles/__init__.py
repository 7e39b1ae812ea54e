"""What the style sheets of a finished page make of an element, worked out without a browser."""
