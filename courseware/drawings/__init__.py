"""Trade geometry in, dimensioned drawings out: the sizes drawn are the trade core's, the figures those given.

A kind of drawing is one small module; `bond` lays its bricks, `dimension` its dimension lines, `scale` and `frame`
put it on paper, `svg` writes it out. What a new kind keeps to:

- Pens come from `lines`: `CUT.stroke(outline, closed=True)`, `view.rule(a, b, pen=HIDDEN)`; what is cut through is
  `cut_through(outlines)` or `view.cut(laid)`, heavy and hatched.
- Bricks come in the look of their kind (`looks.LOOKS`): `view.bricks(laid, "half")`, `bricks_of("cut", outlines)`.
- The scale is `one_to(wide, high, room)`, so that the same call is drawn smaller with words as large
  beside other words, on a key and on a phone; sizes in mm of paper that are not type or a lane go by `call.share` too.
- Dimension lines stand `lane(call.labels)` off the work and start off it.
- It ends in `framed(marks, call.alt, view.one_to, kinds)`: the scale's bar, and the legend where there is more than one
  kind of brick. A view at another scale has a `scale_bar` of its own.
"""

from dataclasses import replace

from courseware.drawings.above_the_eye import draw_above_the_eye
from courseware.drawings.bands import draw_bands
from courseware.drawings.batch import draw_batch
from courseware.drawings.beside_old import draw_beside_old
from courseware.drawings.carrier import draw_carrier
from courseware.drawings.controls import draw_controls
from courseware.drawings.corbel import draw_corbel
from courseware.drawings.corbel_reach import draw_corbel_reach
from courseware.drawings.datum_carried import draw_datum_carried
from courseware.drawings.dentils import draw_dentils
from courseware.drawings.diagonals import draw_diagonals
from courseware.drawings.dog_tooth import draw_dog_tooth
from courseware.drawings.fixed_height import draw_fixed_height
from courseware.drawings.frame_section import draw_frame_section
from courseware.drawings.gap import draw_gap
from courseware.drawings.gauge_rod import draw_gauge_rod
from courseware.drawings.heights import draw_heights
from courseware.drawings.herringbone import draw_herringbone
from courseware.drawings.lifts import draw_lifts
from courseware.drawings.lining_through import draw_lining_through
from courseware.drawings.lintel import draw_lintel
from courseware.drawings.mitre import draw_mitre
from courseware.drawings.mitred_corner import draw_bat_hands, draw_mitred_corner, draw_template_lines
from courseware.drawings.noise_levels import draw_noise_levels
from courseware.drawings.opening import draw_opening
from courseware.drawings.own import draw_own
from courseware.drawings.packs import draw_packs
from courseware.drawings.panel import draw_panel
from courseware.drawings.patch import draw_patch
from courseware.drawings.picture import Picture
from courseware.drawings.pier import draw_pier, draw_returned
from courseware.drawings.projection import draw_projection
from courseware.drawings.reveals import draw_reveals
from courseware.drawings.rod_marks import draw_rod_marks
from courseware.drawings.scale import in_a_share_of_its_room
from courseware.drawings.sill import draw_sill
from courseware.drawings.soldiers import draw_soldiers
from courseware.drawings.square_corner import draw_square_corner
from courseware.drawings.stack_bond import draw_stack_bond
from courseware.drawings.string_course import draw_string_course
from courseware.drawings.surround import draw_surround
from courseware.drawings.surround_corners import draw_surround_corners
from courseware.drawings.svg import to_svg
from courseware.drawings.turns import draw_turns
from courseware.drawings.two_gangs import draw_two_gangs
from courseware.drawings.wall import draw_wall
from courseware.drawings.wall_section import draw_wall_section
from courseware.drawings.weave_rising import draw_uprights, draw_weave_gap
from courseware.drawings.windows import draw_windows
from courseware.papers.sheets import DrawingCall

_DRAWN = {
    "opening": draw_opening,
    "pier": draw_pier,
    "returned": draw_returned,
    "gauge_rod": draw_gauge_rod,
    "fixed_height": draw_fixed_height,
    "beside_old": draw_beside_old,
    "heights": draw_heights,
    "rod_marks": draw_rod_marks,
    "lining_through": draw_lining_through,
    "windows": draw_windows,
    "reveals": draw_reveals,
    "datum_carried": draw_datum_carried,
    "gap": draw_gap,
    "projection": draw_projection,
    "bands": draw_bands,
    "above_the_eye": draw_above_the_eye,
    "string_course": draw_string_course,
    "corbel_reach": draw_corbel_reach,
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
    "batch": draw_batch,
    "carrier": draw_carrier,
    "controls": draw_controls,
    "frame_section": draw_frame_section,
    "lifts": draw_lifts,
    "lintel": draw_lintel,
    "bat_hands": draw_bat_hands,
    "mitred_corner": draw_mitred_corner,
    "template_lines": draw_template_lines,
    "noise_levels": draw_noise_levels,
    "packs": draw_packs,
    "patch": draw_patch,
    "surround_corners": draw_surround_corners,
    "turns": draw_turns,
    "two_gangs": draw_two_gangs,
    "wall_section": draw_wall_section,
    "uprights": draw_uprights,
    "weave_gap": draw_weave_gap,
}


def draw(call: DrawingCall, share: float = 1.0) -> Picture:
    """The picture of a drawing call; the kinds are those of `courseware.banks.drawing_kinds`, or an author's own.

    With a `share` it is made at the usual scale at which it fits so much of its room; an author's own is as it is.
    Raises `ValueError` where there is none.
    """
    if call.own:
        return draw_own(call.own, call.alt)
    with in_a_share_of_its_room(share):
        return _DRAWN[call.kind](replace(call, share=share) if share < 1 else call)


__all__ = ["Picture", "draw", "to_svg"]
