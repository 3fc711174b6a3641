"""Sittings, scripts, marks and decisions kept so that they stand up months later: nothing is overwritten."""
