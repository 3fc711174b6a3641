"""A table on the marking sheet: a cell for each row. Its rows are marked as the figures that they are."""

from __future__ import annotations

from courseware.marking.part_kind import KindInMarking
from courseware.part_kinds.number.marking import KIND as FIGURE

KIND = KindInMarking(
    cell="as written, a cell for each row",
    mark=FIGURE.mark,
    invented=FIGURE.invented,
    read=FIGURE.read,
    carried=FIGURE.carried,
)
