"""A part answered by one figure."""
