"""The drawings a bank may ask for, each from the trade core's sizes."""

from __future__ import annotations

from fractions import Fraction

from courseware.drawings.picture import Label, Picture
from courseware.drawings.scene import Scene
from courseware.papers.sheets import DrawingCall
from courseware.trade import Format, clear_height, gauge_rod, height, opening, pier, returned

Box = tuple[Fraction, Fraction, Fraction, Fraction]
_ZERO = Fraction(0)


def course_of_bricks(
    left: Fraction, right: Fraction, bottom: Fraction, brick: Format, *, half_first: bool
) -> list[Box]:
    """Stretchers from `left` to `right` at this height, a half first in alternate courses, a cut where length is left."""
    bricks: list[Box] = []
    at = left
    while at < right:
        long = brick.half - brick.perpend if half_first and at == left else brick.length
        bricks.append((at, bottom, min(at + long, right), bottom + brick.height))
        at += long + brick.perpend
    return bricks


def draw_opening(call: DrawingCall) -> Picture:
    """An opening in its wall, in stretcher bond from the reveals, brick by brick."""
    brick, bricks, courses = call.format, Fraction(call.figures["bricks"]), int(Fraction(call.figures["courses"]))
    width, clear = opening(bricks, brick), clear_height(courses, brick)
    side = brick.length + brick.perpend + brick.half - brick.perpend
    below, above = 2, 2
    sill = below * brick.course - brick.bed
    wide, high = 2 * side + width, sill + clear + above * brick.course - brick.bed
    scene = Scene(wide, high)
    laid: list[Box] = []
    for row in range(below):
        laid += course_of_bricks(_ZERO, wide, row * brick.course, brick, half_first=row % 2 == 1)
    for row in range(courses):
        bottom = sill + brick.bed + row * brick.course
        half = row % 2 == 0
        jamb = course_of_bricks(_ZERO, side, _ZERO, brick, half_first=half)
        laid += [(left, bottom, right, bottom + brick.height) for left, _, right, _ in jamb]
        laid += [(wide - right, bottom, wide - left, bottom + brick.height) for left, _, right, _ in jamb]
    for row in range(above):
        laid += course_of_bricks(_ZERO, wide, sill + clear + row * brick.course, brick, half_first=row % 2 == 0)
    scene.boxes(laid)
    if "width" in call.labels:
        scene.across(side, side + width, sill + brick.bed, call.labels["width"])
    if "height" in call.labels:
        scene.upright(sill, sill + clear, side + width, call.labels["height"], right=False)
    return scene.picture(call.alt)


def draw_wall_length(call: DrawingCall) -> Picture:
    """A pier, or a length to a return, in bond."""
    brick, bricks, courses = call.format, Fraction(call.figures["bricks"]), int(Fraction(call.figures["courses"]))
    is_pier = call.kind == "pier"
    wide = pier(bricks, brick) if is_pier else returned(bricks, brick)
    high = height(courses, brick)
    scene = Scene(wide, high)
    laid: list[Box] = []
    for row in range(courses):
        laid += course_of_bricks(_ZERO, wide, row * brick.course + brick.bed, brick, half_first=row % 2 == 1)
    scene.boxes(laid)
    scene.rule((_ZERO, _ZERO), (wide, _ZERO), weight=0.5)
    if not is_pier:
        scene.rule((wide, _ZERO), (wide, high), weight=0.6, dash=(2, 1))
    if "width" in call.labels:
        scene.across(_ZERO, wide, _ZERO, call.labels["width"])
    if "height" in call.labels:
        scene.upright(_ZERO, high, wide, call.labels["height"])
    return scene.picture(call.alt)


def draw_gauge_rod(call: DrawingCall) -> Picture:
    """A gauge rod beside its courses, with the heights from each datum asked for."""
    brick, courses = call.format, int(Fraction(call.figures["courses"]))
    marks = gauge_rod(courses, brick)
    wide, high = brick.module * 4, marks[-1] + brick.bed + brick.height
    scene = Scene(wide, high)
    rod = brick.module * 3 / 2
    wall = [(rod + brick.half, mark - brick.height, rod + brick.half + brick.width, mark) for mark in marks]
    scene.boxes(wall)
    scene.boxes([(rod + brick.half, -brick.height, rod + brick.half + brick.width, _ZERO)], fill=0.7)
    scene.boxes([(rod, _ZERO, rod + brick.half / 2, marks[-1])], fill=None, weight=0.35)
    for mark in marks:
        scene.rule((rod, mark), (rod + brick.half / 2, mark))
    scene.rule((_ZERO, _ZERO), (wide, _ZERO), dash=(3, 1))
    scene.marks.append(Label(at=scene.at(_ZERO, brick.bed), text="datum: top of brick below", size=2.6, anchor="start"))
    spans = {
        "height": (_ZERO, marks[-1]),
        "face_height": (brick.bed, marks[-1]),
        "clear_height": (_ZERO, marks[-1] + brick.bed),
        "gauge": (_ZERO, marks[0]),
    }
    for row, name in enumerate([name for name in spans if name in call.labels]):
        bottom, top = spans[name]
        scene.upright(bottom, top, rod + brick.half + brick.width + row * brick.module / 2, call.labels[name])
    return scene.picture(call.alt, rows_below=2)


def draw_projection(call: DrawingCall) -> Picture:
    """Section of a wall with one course forward, the eye line dashed across."""
    brick, course = call.format, int(Fraction(call.figures["course"]))
    eye, out = Fraction(call.figures["eye_height"]), Fraction(call.figures["projects"])
    top = height(course, brick)
    high = max(top + 2 * brick.course, eye + brick.course)
    wide = brick.module * 6
    scene = Scene(wide, high)
    face = brick.module * 2
    rows = int(high / brick.course)
    section = [(face, mark - brick.height, face + brick.width, mark) for mark in gauge_rod(rows, brick) if mark != top]
    scene.boxes(section)
    scene.boxes([(face - out, top - brick.height, face + brick.width - out, top)], fill=0.7, weight=0.35)
    scene.rule((_ZERO, eye), (wide, eye), dash=(3, 1.5), weight=0.3)
    scene.rule((_ZERO, _ZERO), (wide, _ZERO), weight=0.5)
    scene.marks.append(
        Label(at=(scene.at(_ZERO, eye)[0], scene.at(_ZERO, eye)[1] - 1), text="eye line", size=3, anchor="start")
    )
    scene.marks.append(
        Label(at=(scene.at(_ZERO, 0)[0], scene.at(_ZERO, 0)[1] + 3.5), text="datum", size=3, anchor="start")
    )
    spans = {"course_height": (_ZERO, top), "eye_height": (_ZERO, eye), "from_eye": (min(top, eye), max(top, eye))}
    for row, name in enumerate([name for name in spans if name in call.labels]):
        bottom, above = spans[name]
        scene.upright(bottom, above, face + brick.width + row * brick.module, call.labels[name])
    if "projects" in call.labels:
        scene.across(face - out, face, top, call.labels["projects"])
    return scene.picture(call.alt)


def draw_wall(call: DrawingCall) -> Picture:
    """A wall to scale with one opening, in outline."""
    long, high, width, rise = (
        Fraction(call.figures[n]) for n in ("length", "height", "opening_width", "opening_height")
    )
    scene = Scene(long, high)
    scene.boxes([(_ZERO, _ZERO, long, high)], fill=0.93, weight=0.35)
    left = (long - width) / 2
    if width and rise:
        scene.boxes(
            [
                (
                    left,
                    high / 5 if rise < high * 3 / 4 else _ZERO,
                    left + width,
                    (high / 5 if rise < high * 3 / 4 else _ZERO) + rise,
                )
            ],
            fill=1.0,
        )
    base = high / 5 if rise < high * 3 / 4 else _ZERO
    if "length" in call.labels:
        scene.across(_ZERO, long, _ZERO, call.labels["length"])
    if "height" in call.labels:
        scene.upright(_ZERO, high, long, call.labels["height"])
    if "opening_width" in call.labels and width:
        scene.marks.append(
            Label(at=scene.at(left + width / 2, base + rise * 3 / 4), text=call.labels["opening_width"] or "……", size=3)
        )
    if "opening_height" in call.labels and rise:
        scene.marks.append(
            Label(
                at=scene.at(left + width / 5, base + rise / 3),
                text=call.labels["opening_height"] or "……",
                size=3,
                turn=90,
            )
        )
    return scene.picture(call.alt)


def draw_diagonals(call: DrawingCall) -> Picture:
    """A set-out rectangle with both diagonals."""
    wide, high = Fraction(call.figures["width"]), Fraction(call.figures["height"])
    scene = Scene(wide, high)
    scene.boxes([(_ZERO, _ZERO, wide, high)], fill=None, weight=0.4)
    scene.rule((_ZERO, _ZERO), (wide, high), dash=(3, 1))
    scene.rule((_ZERO, high), (wide, _ZERO), dash=(3, 1))
    if "width" in call.labels:
        scene.across(_ZERO, wide, _ZERO, call.labels["width"])
    if "height" in call.labels:
        scene.upright(_ZERO, high, wide, call.labels["height"])
    if "diagonal" in call.labels:
        scene.marks.append(Label(at=scene.at(wide / 2, high * 3 / 5), text=call.labels["diagonal"] or "………", size=3.4))
    return scene.picture(call.alt)
