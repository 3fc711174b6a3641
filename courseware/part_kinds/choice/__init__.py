"""A part answered by ticking one choice, or several."""
