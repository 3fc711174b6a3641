"""A few words in a bank: the points that are looked for in them, and the lines to write on."""

from __future__ import annotations

from typing import cast

from pydantic import Field

from courseware.banks.part_kinds import KindInBank
from courseware.banks.reading import Path, Scope
from courseware.banks.shapes import PartShape
from courseware.part_kinds.drawn.bank import DrawnPart, PointKeys, bind_by_eye
from courseware.text_files.shapes import Whole

_FEW, _MOST = 3, 12  # lines to write on


class WordsKeys(PointKeys):
    """What a part answered in a few words has."""

    lines: Whole | None = Field(
        None, description=f"how many lines there are to write on, 1 to {_MOST} ({_FEW} unless given)"
    )


def _bind(shape: PartShape, scope: Scope, path: Path) -> DrawnPart:
    asked = cast("WordsKeys", shape).lines
    lines = _FEW if asked is None else asked
    if not 1 <= lines <= _MOST:
        scope.reading.fault((*path, "lines"), f"{lines} lines", f"expected 1 to {_MOST}")
    return bind_by_eye(shape, scope, path, lines=max(1, min(lines, _MOST)))


KIND = KindInBank(place=6, keys=WordsKeys, needed=("points", "marks"), bind=_bind)
