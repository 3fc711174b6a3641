"""Steps with a box for each letter of the order: all of it words, and so in `room.html`."""

from __future__ import annotations

from courseware.printing.part_kind import KindInPrint

KIND = KindInPrint()
