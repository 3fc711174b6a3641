"""Exercises in, practice at home out: one self-contained page, and a booklet for a learner without a phone."""
