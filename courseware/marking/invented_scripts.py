"""Scripts of a class that does not exist, with slips planted in them, to show what marking makes of them."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from courseware.banks.figures import half_up, write_out
from courseware.marking.marks import Script, Status
from courseware.marking.part_kind import MARKING_KINDS
from courseware.papers.codes import keyed
from courseware.papers.part_kind import holds_figure
from courseware.papers.sitting import IssuedPaper, IssuedPart, Sitting

_ABSENT, _LATE = 2, 5  # places in the class
_COMMON = 2  # of three learners make the same slip in the first part that has one
_SPOILT = "about 12"


def invented_scripts(sitting: Sitting) -> tuple[Script, ...]:
    """One script a paper: a slip that most make, others here and there, blanks, one absent, one late, one unreadable.

    Drawn from the sitting's seed: the same sitting gives the same scripts.
    """
    return tuple(_script(sitting, place, paper) for place, paper in enumerate(sitting.papers))


def _script(sitting: Sitting, place: int, paper: IssuedPaper) -> Script:
    status: Status = "absent" if place == _ABSENT else "late" if place == _LATE else ""
    if status == "absent":
        return Script(code=paper.code, cells={}, status=status)
    parts = paper.parts
    common = next((part.label for part in parts if part.slips), "")
    cells = dict(_cells(sitting.seed, place, parts, common))
    if place == 0:
        alone = [part.label for part in parts if holds_figure(part) and "(" not in part.label]  # no row of a table
        cells[alone[-1] if alone else parts[-1].label] = _SPOILT
    return Script(code=paper.code, cells=cells, status=status)


def _cells(seed: str, place: int, parts: tuple[IssuedPart, ...], common: str) -> Iterator[tuple[str, str]]:
    for part in parts:
        draw = keyed(seed, "invented script", str(place), part.label) % 100
        if part.label == common and place % 3 < _COMMON:
            yield part.label, plain_figure(part.slips[0][0])
        else:
            yield part.label, MARKING_KINDS[part.kind].invented(part, draw)


def plain_figure(text: str) -> str:
    """A figure of the record, as a learner would write it."""
    return write_out(half_up(Fraction(text), 3))
