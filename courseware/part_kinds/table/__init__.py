"""A part whose rows are each answered by a figure."""
