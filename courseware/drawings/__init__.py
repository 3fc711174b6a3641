"""Trade geometry in, dimensioned drawings out: the sizes drawn are the trade core's, the figures those given.

A kind of drawing is one small module; `bond` lays its bricks, `dimension` its dimension lines, `scale` and `frame`
put it on paper, `svg` writes it out.
"""

from courseware.drawings.corbel import draw_corbel
from courseware.drawings.dentils import draw_dentils
from courseware.drawings.diagonals import draw_diagonals
from courseware.drawings.dog_tooth import draw_dog_tooth
from courseware.drawings.gauge_rod import draw_gauge_rod
from courseware.drawings.herringbone import draw_herringbone
from courseware.drawings.mitre import draw_mitre
from courseware.drawings.opening import draw_opening
from courseware.drawings.own import draw_own
from courseware.drawings.panel import draw_panel
from courseware.drawings.picture import Picture
from courseware.drawings.pier import draw_pier, draw_returned
from courseware.drawings.projection import draw_projection
from courseware.drawings.sill import draw_sill
from courseware.drawings.soldiers import draw_soldiers
from courseware.drawings.square_corner import draw_square_corner
from courseware.drawings.stack_bond import draw_stack_bond
from courseware.drawings.surround import draw_surround
from courseware.drawings.svg import to_svg
from courseware.drawings.wall import draw_wall
from courseware.papers.sheets import DrawingCall

_DRAWN = {
    "opening": draw_opening,
    "pier": draw_pier,
    "returned": draw_returned,
    "gauge_rod": draw_gauge_rod,
    "projection": draw_projection,
    "wall": draw_wall,
    "panel": draw_panel,
    "surround": draw_surround,
    "mitre": draw_mitre,
    "herringbone": draw_herringbone,
    "corbel": draw_corbel,
    "dentils": draw_dentils,
    "dog_tooth": draw_dog_tooth,
    "sill": draw_sill,
    "soldiers": draw_soldiers,
    "stack_bond": draw_stack_bond,
    "square_corner": draw_square_corner,
    "diagonals": draw_diagonals,
}


def draw(call: DrawingCall) -> Picture:
    """The picture of a drawing call; the kinds are those of `courseware.banks.drawing_kinds`, or an author's own."""
    return draw_own(call.own, call.alt) if call.own else _DRAWN[call.kind](call)


__all__ = ["Picture", "draw", "to_svg"]
