"""The kinds of part: a folder each, with a module for each room that asks something of a kind.

`bank.py` its keys, what is worked out and what is proved; `paper.py` its entry, its question and its key;
`marking.py` the cell of the marking sheet; `feedback.py` what is said where marks were lost; `practice.py` its data on
the practice page; `printing.py` and `room.html` the room for an answer; `page.js` how the practice page asks and judges
it. Each module imports what its room imports, nothing more. `courseware.banks.part_kinds` finds them by name.
"""
