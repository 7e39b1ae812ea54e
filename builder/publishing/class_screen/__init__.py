"""The class screen: one page, whole in itself, that a coach opens on a tablet in class."""
