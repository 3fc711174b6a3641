"""Trade geometry in, dimensioned drawings out: the sizes drawn are the trade core's, the figures those given."""

from courseware.drawings.kinds import (
    draw_diagonals,
    draw_gauge_rod,
    draw_opening,
    draw_projection,
    draw_wall,
    draw_wall_length,
)
from courseware.drawings.picture import Picture
from courseware.papers.sheets import DrawingCall

_DRAWN = {
    "opening": draw_opening,
    "pier": draw_wall_length,
    "returned": draw_wall_length,
    "gauge_rod": draw_gauge_rod,
    "projection": draw_projection,
    "wall": draw_wall,
    "diagonals": draw_diagonals,
}


def draw(call: DrawingCall) -> Picture:
    """The picture of a drawing call; the kinds are those of `courseware.banks.drawing_kinds`."""
    return _DRAWN[call.kind](call)


__all__ = ["Picture", "draw"]
