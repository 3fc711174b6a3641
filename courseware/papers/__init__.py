"""A group and a choice of exercises in, a sitting of papers out: class lists, dealing, codes, sitting.json, the sheets.

Everything a sheet says is finished text here; the printing room only places it.
"""
