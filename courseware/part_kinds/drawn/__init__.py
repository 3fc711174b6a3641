"""A part that is drawn, and marked by eye against its points."""
