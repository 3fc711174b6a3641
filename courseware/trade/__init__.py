"""What a bricklayer knows: setting out, gauge, projecting courses and quantities, for any brick format.

Pure and exact: numbers in, numbers out, lengths in mm as fractions, nothing read, written or rounded on the
way. Every figure on a paper, its key, its drawing and its order comes from here. An ask that cannot be built
raises `TradeError`, which says so in trade words with the nearest that can.
"""

from courseware.trade.arches import segmental_radius
from courseware.trade.batching import Batch, batch
from courseware.trade.bricks import bricks_for_area, order
from courseware.trade.closers import queen_closer
from courseware.trade.decorative import (
    DogTooth,
    Run,
    dentils,
    dog_tooth,
    on_edge,
    pieces_in,
    run_of,
    soldiers,
    stack_bond,
)
from courseware.trade.errors import TradeError
from courseware.trade.exact import Exact, number
from courseware.trade.formats import (
    AUSTRALIAN,
    FORMATS,
    GERMAN_2DF,
    GERMAN_DF,
    GERMAN_NF,
    UK_73,
    UK_METRIC,
    US_MODULAR,
    Format,
)
from courseware.trade.frame import Frame, projecting_frame
from courseware.trade.gauge import clear_height, courses_in, courses_to_reach, face_height, gauge_rod, height
from courseware.trade.herringbone import Herringbone, herringbone
from courseware.trade.mitre import Template, mitre_template, piece_joint
from courseware.trade.mortar import mortar_volume
from courseware.trade.openings import opening, pier, returned
from courseware.trade.projecting import PROJECTION_LIMITS, ProjectionLimit, check_projection
from courseware.trade.regauging import Regauge, regauge
from courseware.trade.sight import ARRIS_RULES, angle_of_sight, arris_to_level, from_eye
from courseware.trade.squaring import diagonal
from courseware.trade.surround import Piece, Surround, surround
from courseware.trade.wall import wall_area_m2, wall_thickness
from courseware.trade.weave import Placed, Weave, basket_weave, weave_closes
from courseware.trade.workable import (
    bricks_in_opening,
    bricks_in_pier,
    bricks_in_returned,
    is_workable_opening,
    workable_openings,
    workable_piers,
    workable_returned,
)

__all__ = [
    "ARRIS_RULES",
    "AUSTRALIAN",
    "FORMATS",
    "GERMAN_2DF",
    "GERMAN_DF",
    "GERMAN_NF",
    "PROJECTION_LIMITS",
    "UK_73",
    "UK_METRIC",
    "US_MODULAR",
    "Batch",
    "DogTooth",
    "Exact",
    "Format",
    "Frame",
    "Herringbone",
    "Piece",
    "Placed",
    "ProjectionLimit",
    "Regauge",
    "Run",
    "Surround",
    "Template",
    "TradeError",
    "Weave",
    "angle_of_sight",
    "arris_to_level",
    "basket_weave",
    "batch",
    "bricks_for_area",
    "bricks_in_opening",
    "bricks_in_pier",
    "bricks_in_returned",
    "check_projection",
    "clear_height",
    "courses_in",
    "courses_to_reach",
    "dentils",
    "diagonal",
    "dog_tooth",
    "face_height",
    "from_eye",
    "gauge_rod",
    "height",
    "herringbone",
    "is_workable_opening",
    "mitre_template",
    "mortar_volume",
    "number",
    "on_edge",
    "opening",
    "order",
    "piece_joint",
    "pieces_in",
    "pier",
    "projecting_frame",
    "queen_closer",
    "regauge",
    "returned",
    "run_of",
    "segmental_radius",
    "soldiers",
    "stack_bond",
    "surround",
    "wall_area_m2",
    "wall_thickness",
    "weave_closes",
    "workable_openings",
    "workable_piers",
    "workable_returned",
]
