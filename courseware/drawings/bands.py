"""A wall with projecting courses seen from the front, and the two arrises of such a course in section.

The eye line is drawn only where what is asked of it is filled in: on which side of it a course lies is for the learner
to find.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from courseware.drawings.bond import section, toothed
from courseware.drawings.dimension import NAME, Marks, name, plumb
from courseware.drawings.frame import View, framed
from courseware.drawings.level_marks import level
from courseware.drawings.lines import HIDDEN, REFERENCE
from courseware.drawings.picture import Picture, Point, extent
from courseware.drawings.scale import one_to
from courseware.papers.sheets import DrawingCall
from courseware.trade import height

BANDS = ("first", "second", "third", "fourth")
_HIGH = 46.0  # mm of paper for the wall
_WIDE = 22.0  # mm of paper for it, or as near as bricks go
_OVER = 2  # courses over the highest band and over the eye line
_OUT = Fraction(25)  # mm, in the section: as drawn
_SECTION = (20.0, 24.0)  # mm of paper for it
_LEAST = 0.7  # of that, so that the courses' numbers stand clear of one another
_EYE = 17.0  # mm of paper for the name of the eye line
_NAMED = 28.0  # mm of paper for the arrises' names


def draw_bands(call: DrawingCall) -> Picture:
    """The picture of up to four courses that project, from the lowest; one whose number is 0 is not there."""
    brick, eye = call.format, Fraction(call.figures["eye_height"])
    numbers = {band: int(Fraction(call.figures[band])) for band in BANDS if call.figures[band]}
    rows = max(*numbers.values(), ceil(eye / brick.course)) + _OVER
    view = View(one_to=one_to(1, rows * brick.course, (1, _HIGH), least=25, share=max(call.share, _LEAST)))
    bricks = max(2, int(call.share * _WIDE * view.one_to / brick.module))
    projecting = {number - 1 for number in numbers.values()}
    laid = {
        out: tuple(b for row in range(rows) if (row in projecting) is out for b in toothed(bricks, row, brick))
        for out in (False, True)
    }
    right = bricks * brick.module + brick.half - brick.perpend
    end = view.at(right, 0)[0]
    marks: Marks = (
        *view.bricks(laid[False], joint=brick.bed),
        *view.bricks(laid[True], "out", joint=brick.bed),
        *level(view.at(0, 0), "datum", 13.0, below=True),
        *_numbered(call, view, numbers, end),
    )
    aside = max(x for mark in marks for x, _ in extent(mark)) + 3 + _NAMED
    below = view.at(0, 0)[1] + NAME + 4
    if not _filled(call):
        marks += _arrises(call, (_NAMED, below + _SECTION[1]) if call.narrow else (aside, -14.0))
    return framed((*marks, *_between(call, view, numbers)), call.alt, view.one_to, ("whole", "out"))


def _numbered(call: DrawingCall, view: View, numbers: dict[str, int], end: float) -> Marks:
    """Each band's course beside it, with its distance from the eye line where that is filled in."""
    brick, eye = call.format, Fraction(call.figures["eye_height"])
    marks: Marks = ()
    for band, number in numbers.items():
        text, top = call.labels.get(f"{band}_from_eye"), height(number, brick)
        way = "above" if top > eye else "below"
        says = f"course {number}" if text is None else f"{number}: {text} {way}"
        marks += (name((end + 1.5, view.at(0, top - brick.height / 2)[1] + 1.0), says),)
    if not _filled(call):
        return marks
    return (
        *marks,
        view.rule((0, eye), (end * view.one_to, eye), pen=HIDDEN),
        *level(view.at(0, eye), "eye line", _EYE, below=True),
    )


def _filled(call: DrawingCall) -> bool:
    return any(call.labels.get(f"{band}_from_eye") for band in BANDS)


def _between(call: DrawingCall, view: View, numbers: dict[str, int]) -> Marks:
    if "second_to_third" not in call.labels:
        return ()
    low, high = sorted(numbers.get(band, 0) * call.format.course for band in ("second", "third"))
    line = view.at(0, 0)[0] - (_EYE + 3 if _filled(call) else 8)
    return plumb(view.at(0, low), view.at(0, high), line, call.labels["second_to_third"])


def _arrises(call: DrawingCall, foot: Point) -> Marks:
    """A projecting course between two others, cut through, its arrises named to the left, where its face is."""
    brick = call.format
    scale = one_to(brick.width + _OUT, 3 * brick.course, _SECTION, least=10)
    view = View(one_to=scale, origin=(foot[0] + float(_OUT) / scale, foot[1]))
    back, forward = (section(0, brick), section(2, brick)), section(1, brick, -_OUT)
    marks: Marks = (
        *view.cut(back),
        *view.cut((forward,), "out"),
        name((view.at(brick.width, 0)[0], view.at(0, 0)[1] + 4.5), "section, enlarged", "end"),
    )
    for place, says in ((forward.top, "top arris"), (forward.bottom, "under-side arris")):
        x, y = view.at(-_OUT, place)
        marks += (
            REFERENCE.stroke(((x - _NAMED, y), (x - 0.6, y))),
            name((x - _NAMED, y - 0.7 if says.startswith("top") else y + 2.8), says),
        )
    return marks
