"""Randomised calculation sheets, keys and drawings for bricklaying classes."""

__version__ = "0.1.0"
