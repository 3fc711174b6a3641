"""The pictures that a glossary may name, each with what it shows; all of them our own drawings."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache

from courseware.drawings.dimension import Marks
from courseware.drawings.enlarged import resized
from courseware.drawings.frame import framed
from courseware.drawings.picture import Picture
from courseware.glossary import brick_pictures as brick
from courseware.glossary import decorative_pictures as decorative
from courseware.glossary import opening_pictures as opening
from courseware.glossary import plan_pictures as plan
from courseware.glossary import section_pictures as section
from courseware.glossary import wall_pictures as wall

Drawn = Callable[[], Marks]
_LARGEST = (48.0, 25.0)  # mm

_SHOWN: Mapping[str, Mapping[str, Drawn]] = {
    "A brick": {
        "stretcher_face": brick.stretcher_face, "header_face": brick.header_face, "bed_face": brick.bed_face,
        "arris": brick.arris, "frog": brick.frog,
    },
    "A piece cut from a brick": {
        "bat": brick.bat, "three_quarter_bat": brick.three_quarter_bat, "closer": brick.closer,
        "king_closer": brick.king_closer, "mitred_bat": brick.mitred_bat,
    },
    "A wall from the front": {
        "bed": wall.bed, "bond": wall.stretcher_bond, "brick_on_edge": wall.brick_on_edge,
        "broken_bond": wall.broken_bond, "coping": wall.coping, "course": wall.course,
        "damp_proof_course": wall.damp_proof_course, "datum": wall.datum, "dentil": wall.dentil_course,
        "english_bond": wall.english_bond, "face": wall.face, "flemish_bond": wall.flemish_bond, "gauge": wall.gauge,
        "gauge_rod": wall.rod, "header": wall.header, "lap": wall.lap, "level": wall.level, "line": wall.string_line,
        "module": wall.module, "perp": wall.perp, "plumb": wall.plumb, "queen_closer": wall.queen_closers,
        "racking_back": wall.racking_back, "soldier": wall.soldier, "stack_bond": wall.stack_bond,
        "stopped_end": wall.stopped_end, "straight_joint": wall.straight_joint, "stretcher": wall.stretcher,
        "string_course": wall.string_course, "toothing": wall.toothing, "weep_hole": wall.weep_hole,
    },
    "An opening in a wall": {
        "bearing": opening.bearing, "head": opening.head, "jamb": opening.jamb, "lintel": opening.lintel,
        "opening": opening.opening_itself, "reveal": opening.reveal, "sill": opening.sill, "soffit": opening.soffit,
    },
    "A wall from above": {
        "attached_pier": plan.attached_pier, "cavity": plan.cavity, "half_brick_wall": plan.half_brick_wall,
        "leaf": plan.leaf, "one_brick_wall": plan.one_brick_wall, "pier": plan.pier, "quoin": plan.quoin,
        "return": plan.returned, "wall_tie": plan.wall_tie,
    },
    "A wall cut through": {
        "corbel": section.corbel, "foundation": section.foundation, "oversail": section.oversail,
        "plinth": section.plinth,
    },
    "A bed joint cut through": {
        "bucket_handle_joint": section.bucket_handle_joint, "flush_joint": section.flush_joint,
        "recessed_joint": section.recessed_joint, "weather_struck_joint": section.weather_struck_joint,
    },
    "A panel or a pattern": {
        "basket_weave": decorative.basket_weave_panel, "bay": decorative.bay, "dog_tooth": decorative.dog_tooth,
        "herringbone": decorative.herringbone, "mitre": decorative.mitre, "panel": decorative.panel,
        "surround": decorative.surround_itself, "template": decorative.template,
    },
    "Setting out": {"diagonal": decorative.diagonals, "square": decorative.square_corner},
}  # fmt: skip
PICTURES: Mapping[str, tuple[str, Drawn]] = {
    name: (shown, drawn) for shown, named in _SHOWN.items() for name, drawn in named.items()
}


@lru_cache(maxsize=128)
def picture(name: str, word: str) -> Picture:
    """The picture of this name for a word, 48 by 25 mm at most."""
    shown, drawn = PICTURES[name]
    made = framed(drawn(), f"{shown}: {word}")
    return resized(made, min(1.0, _LARGEST[0] / made.width, _LARGEST[1] / made.height), lambda size: size)
