"""A part answered by putting steps in order."""
