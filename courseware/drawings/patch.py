"""A patch of wall from the front and in section: bricks light, mortar dark, one brick outlined with its joints.

A wall half a brick thick is in stretcher bond; one a brick thick has a course of headers between two of stretchers.
"""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.dimension import Marks, across, beside, led_right, name
from courseware.drawings.frame import BRICK, View, framed
from courseware.drawings.picture import Picture, Stroke
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, wall_thickness

MORTAR = 0.45  # grey
_ONE_TO = 10
_ROWS, _WIDE = 3, Fraction(2)  # courses, bricks
_APART = 9.0  # mm of paper between the two views
_TOP, _FOOT = Fraction(3, 5), Fraction(1, 2)  # of a brick's width, that a frog is wide
Box = tuple[Fraction, Fraction, Fraction, Fraction]


def draw_patch(call: DrawingCall) -> Picture:
    """The picture of a patch of wall `thickness` bricks thick, its joints `joint` mm, or the brick's own if that is 0.

    A frog of `frog` per cent of the brick cut through is drawn in the section, full of mortar.
    """
    brick, figures = _laid(call.format, Fraction(call.figures["joint"])), call.figures
    thick = wall_thickness(Fraction(figures["thickness"]), call.format)
    view, high, wide = View(one_to=_ONE_TO), _ROWS * brick.course + brick.bed, _WIDE * brick.module
    cut = View(one_to=_ONE_TO, origin=(view.at(wide, 0)[0] + _APART, 0.0))
    front = tuple(view.box(*one) for one in faces(thick > brick.width, brick, wide))
    sides = [one for row in range(_ROWS) for one in cut_bricks(row, thick, brick)]
    left, low = brick.perpend, (_ROWS - 1) * brick.course + brick.bed
    marks: Marks = (
        Stroke(outlines=(view.box(0, 0, wide, high), cut.box(0, 0, thick, high)), closed=True, weight=0, fill=MORTAR),
        Stroke(outlines=front, closed=True, weight=0.13, fill=BRICK),
        Stroke(outlines=tuple(cut.box(*one) for one in sides), closed=True, weight=0.35, fill=BRICK),
        *_frogs(cut, sides, Fraction(figures["frog"])),
        Stroke(outlines=(view.box(left, low, left + brick.module, low + brick.course),), closed=True, weight=0.7),
        name((0, view.at(0, high)[1] - 2), "front"),
        name((cut.at(thick / 2, 0)[0], view.at(0, high)[1] - 2), "section", anchor="middle"),
    )
    return framed((*marks, *_sizes(call, view, cut, brick, thick)), call.alt, view.one_to)


def _laid(brick: Format, joint: Fraction) -> Format:
    if not joint:
        return brick
    return Format(brick.name, brick.length, brick.width, brick.height, perpend=joint, bed=joint)


def faces(bonded: bool, brick: Format, wide: Fraction) -> list[Box]:
    """The bricks of the front, each joint to the left of its brick: stretchers, and headers by turns where `bonded`."""
    found = []
    for row in range(_ROWS):
        low = row * brick.course + brick.bed
        headers = bonded and row % 2 == 1
        pitch = brick.half if headers else brick.module
        at = brick.perpend - (row % 2) * (brick.half / 2 if bonded else brick.half)
        while at < wide:
            right = at + pitch - brick.perpend
            if right > 0:
                found.append((max(at, Fraction(0)), low, min(right, wide), low + brick.height))
            at += pitch
    return found


def cut_bricks(row: int, thick: Fraction, brick: Format) -> tuple[Box, ...]:
    """The bricks of a course cut through, across the wall."""
    low = row * brick.course + brick.bed
    top = low + brick.height
    if thick <= brick.width or row % 2 == 1:
        return ((Fraction(0), low, thick, top),)
    return ((Fraction(0), low, brick.width, top), (thick - brick.width, low, thick, top))


def _frogs(view: View, sides: list[Box], percent: Fraction) -> Marks:
    """The hollow in the top of each brick: so many per cent of what is cut through."""
    if not percent:
        return ()
    outlines = []
    for left, low, right, top in sides:
        wide, middle = right - left, (left + right) / 2
        deep = percent / 100 * (top - low) * 2 / (_TOP + _FOOT)
        half_top, half_foot = _TOP * wide / 2, _FOOT * wide / 2
        corners = (
            (middle - half_top, top),
            (middle + half_top, top),
            (middle + half_foot, top - deep),
            (middle - half_foot, top - deep),
        )
        outlines.append(tuple(view.at(*corner) for corner in corners))
    return (Stroke(outlines=tuple(outlines), closed=True, weight=0.18, fill=MORTAR),)


def _sizes(call: DrawingCall, view: View, cut: View, brick: Format, thick: Fraction) -> Marks:
    left, low, labels = brick.perpend, brick.bed, call.labels
    right, top = left + brick.length, low + brick.height
    foot = view.at(0, 0)[1]
    marks: Marks = ()
    if "brick_length" in labels:
        marks += across(view.at(left, 0), view.at(right, 0), foot + 6, labels["brick_length"])
    if "joint" in labels:
        marks += across(view.at(right, 0), view.at(right + brick.perpend, 0), foot + 14, labels["joint"])
    if "brick_height" in labels:
        edge = view.at(0, low)
        marks += beside(edge, view.at(0, top), edge[0] - 3, labels["brick_height"])
    if "thickness" in labels:
        marks += across(cut.at(0, 0), cut.at(thick, 0), foot + 6, labels["thickness"])
    if "face" in labels:
        point = view.at(left + brick.module / 2, (_ROWS - 1) * brick.course + brick.course / 2)
        marks += led_right(point, (point[0] + 6, view.at(0, _ROWS * brick.course)[1] - 3), labels["face"])
    return marks
