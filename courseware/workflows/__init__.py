"""The tutor's desk: banks found, exercises proved on every core, sittings written whole into their folders.

The commands call this room; it touches files and clocks, and tells how far it is through the callables it is given.
"""
