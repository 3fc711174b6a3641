"""Room for a ratio: two boxes, in `room.html`."""

from __future__ import annotations

from courseware.printing.part_kind import KindInPrint

KIND = KindInPrint()
