"""How each kind of brick looks: a tone and a mark that says the same without the tone, for a copier's sake.

A kind of drawing hands its bricks to `bricks_of` by kind, and the kinds that it has to `framed(..., legend=...)`,
which says below the drawing what each looks like where there is more than one.
"""

from __future__ import annotations

from dataclasses import dataclass

from courseware.drawings.dimension import Marks
from courseware.drawings.hatching import hatching
from courseware.drawings.lines import FINE, SEEN
from courseware.drawings.picture import Point, Stroke

Outline = tuple[Point, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """What a kind of brick is called, its grey from 0 (black) to 1, and its mark: stroke, cross, hatching or none."""

    says: str
    fill: float
    mark: str = ""


# Greys that stay apart on a photocopy, with an outline to each brick.
LOOKS = {
    "whole": Look(says="whole", fill=0.92),
    "soldier": Look(says="soldier", fill=0.86),  # it stands: that says the same without the grey
    "half": Look(says="half", fill=0.8, mark="stroke"),
    "bat": Look(says="bat", fill=0.8, mark="cross"),
    "cut": Look(says="cut", fill=0.92, mark="hatching"),
    "mitred bat": Look(says="mitred bat", fill=0.66, mark="hatching"),
    "special": Look(says="special", fill=1.0, mark="cross"),
    "corner piece": Look(says="corner piece", fill=1.0, mark="cross"),
    "plain": Look(says="of the panel", fill=1.0),
    "out": Look(says="stands out", fill=0.66),
    "old": Look(says="old work", fill=0.72),
}


def bricks_of(kind: str, outlines: tuple[Outline, ...], *, fine: bool = False) -> Marks:
    """Bricks of a kind in their tone with its mark, none where there are none; `fine` where their joints are narrow.

    Outlines go round from their upper left corner, or any other: a stroke runs from it to the one opposite.
    """
    if not outlines:
        return ()
    look, pen = LOOKS[kind], FINE if fine else SEEN
    return (pen.stroke(*outlines, closed=True, fill=look.fill), *_marked(look.mark, outlines))


def _marked(mark: str, outlines: tuple[Outline, ...]) -> tuple[Stroke, ...]:
    if mark == "hatching":
        return (hatching(*outlines, apart=1.2),)
    if mark == "stroke":
        return (FINE.stroke(*((outline[0], outline[2]) for outline in outlines)),)
    if mark == "cross":
        return (FINE.stroke(*((outline[n], outline[n - 2]) for outline in outlines for n in (0, 1))),)
    return ()
