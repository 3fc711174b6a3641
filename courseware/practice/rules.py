"""Which rule is this: the rule of a part in words, by the trade function that answers it, and two it is mistaken for.

The rules are those of the trade core; the wrong ones are the slips that learners make with them (derived, no source).
"""

from __future__ import annotations

import ast
from dataclasses import dataclass

from courseware.banks.number_part import NumberPart

_MODULE = "one brick and its joint"
_OPENING = "Opening: one joint more than bricks"
_PIER = "Pier, brick at both ends: one joint fewer than bricks"
_RETURNED = "A return at one end: as many joints as bricks"
_TO_TOP = "Brick below to top of the last course: as many beds as courses"
_FACE = "The bricks alone: one bed fewer than courses"
_CLEAR = "Brick below to brick above: one bed more than courses"
_OUT_OF_OPENING = f"Take one joint off, then divide by {_MODULE}"
_OUT_OF_PIER = f"Add one joint, then divide by {_MODULE}"
_OUT_OF_RETURNED = f"Divide by {_MODULE} as it stands"
_OUT_OF_CLEAR = "Take one bed off, then divide by one course"
_OUT_OF_FACE = "Add one bed, then divide by one course"
_OUT_OF_HEIGHT = "Divide by one course as it stands"
_GAUGE = "Divide the height by the courses: one brick and its bed"
_BED = "Divide the height by the courses, then take the brick off"
_NEAREST = "Divide the height by one course, then take the nearest whole number"
_REACH = "Divide the height by one course, then go up to the next whole number"
_FIT = "Divide the height by one course, then drop the part"
_ROUND_UP_ONCE = "Work it out with any waste added, then round up once"
_ROUND_FIRST = "Round up first, then add the waste"
_TO_NEAREST = "Work it out, then take the nearest whole number"
_ROUND_DOWN = "Work it out, then round down"
_HALF_TURN = "180 degrees less the corner"

RULES: dict[str, tuple[str, str, str]] = {  # function: its rule, then two that it is taken for
    "opening": (_OPENING, _PIER, _RETURNED),
    "pier": (_PIER, _OPENING, _RETURNED),
    "returned": (_RETURNED, _OPENING, _PIER),
    "height": (_TO_TOP, _FACE, _CLEAR),
    "face_height": (_FACE, _TO_TOP, _CLEAR),
    "clear_height": (_CLEAR, _TO_TOP, _FACE),
    "bricks_in_opening": (_OUT_OF_OPENING, _OUT_OF_PIER, _OUT_OF_RETURNED),
    "bricks_in_pier": (_OUT_OF_PIER, _OUT_OF_OPENING, _OUT_OF_RETURNED),
    "bricks_in_returned": (_OUT_OF_RETURNED, _OUT_OF_OPENING, _OUT_OF_PIER),
    "courses_in_clear": (_OUT_OF_CLEAR, _OUT_OF_FACE, _OUT_OF_HEIGHT),
    "courses_in_face": (_OUT_OF_FACE, _OUT_OF_CLEAR, _OUT_OF_HEIGHT),
    "courses_in": (_OUT_OF_HEIGHT, _OUT_OF_CLEAR, _OUT_OF_FACE),
    "courses_to_reach": (_REACH, _NEAREST, _FIT),
    "regauge_gauge": (_GAUGE, _BED, _NEAREST),
    "regauge_bed": (_BED, _GAUGE, _NEAREST),
    "regauge_courses": (_NEAREST, _REACH, _FIT),
    "packs": (_ROUND_UP_ONCE, _ROUND_FIRST, _TO_NEAREST),
    "up": (_ROUND_UP_ONCE, _TO_NEAREST, _ROUND_DOWN),
    "down": (_ROUND_DOWN, _TO_NEAREST, _ROUND_UP_ONCE),
    "diagonal": (
        "Square both sides, add, then take the square root",
        "Add both sides",
        "Add both sides, square, then take the square root",
    ),
    "wall_area": (
        "Length × height in metres, any opening taken off",
        "Length × height in metres, any opening added",
        "All the way round in metres, any opening taken off",
    ),
    "mitre_angle": ("Half of the corner", "The corner as it is", _HALF_TURN),
    "from_eye": (
        "The height of the course less the eye line",
        "The height of the course and the eye line together",
        "The eye line less one course",
    ),
    "surround_bats": ("Two mitred bats to a corner", "One mitred bat to a corner", "Four mitred bats to a corner"),
    "surround_bricks": ("Two pieces out of each brick", "One piece out of each brick", "Four pieces out of each brick"),
    "stack_bricks": (
        "Bricks across × courses",
        "Bricks across and courses together",
        "Bricks across × courses, half a brick less in every other course",
    ),
    "soldiers_in": (
        "Add one joint, then divide by a soldier and its joint",
        "Divide by a soldier and its joint as it stands",
        "Divide by a soldier without its joint",
    ),
    "on_edge_in": (
        "Add one joint, then divide by a brick on edge and its joint",
        "Divide by a brick on edge and its joint as it stands",
        "Divide by a brick on edge without its joint",
    ),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """The rule of a part, and two others that it may be taken for."""

    right: str
    others: tuple[str, str]


def rule_of(part: NumberPart) -> Rule | None:
    """The rule behind a number part, or None where its answer is not a single trade function.

    An answer in inches has the rule of the length that it is turned from.
    """
    node = ast.parse(part.answer.text.strip(), mode="eval").body
    while isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
        if node.func.id != "inches":
            found = RULES.get(node.func.id)
            return Rule(right=found[0], others=found[1:]) if found else None
        node = node.args[0]
    return None
