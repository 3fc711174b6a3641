"""The line of sight to a projecting course: how far it is from the eye, which arris to level, at what angle."""

from __future__ import annotations

from fractions import Fraction

from courseware.trade.angles import ONE, PI, arctan
from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format
from courseware.trade.gauge import height
from courseware.trade.squaring import settled

TOP = "top"
UNDERSIDE = "underside"
ARRIS_RULES = ("outline", "near")


def from_eye(course: Exact, eye_height: Exact, format: Format = UK_METRIC) -> Fraction:
    """Height in mm of the top of that course above the eye line, below it where negative.

    Course 1 stands on the brick from whose top both heights are measured. Raises `TradeError` as `height` does.

    >>> from_eye(24, 1650)
    Fraction(150, 1)
    """
    return height(course, format) - number(eye_height)


def arris_to_level(course_height: Exact, eye_height: Exact, rule: str = "outline") -> str:
    """The arris of a projecting course to level through, "top" or "underside", by the centre's rule.

    `course_height` is the height in mm of the top of the course, as `gauge.height` gives it, and it alone is
    compared: a course that the eye line cuts between underside and top counts as above the eye, because its
    top arris is. "outline": the top above the eye line, the underside below it. "near": the other way round
    (a livery company's glossary lines corbels on the bottom edge). Raises `TradeError` when the eye line
    runs along the top of the course, or for another rule.

    >>> arris_to_level(1800, 1650), arris_to_level(1800, 1650, rule="near")
    ('top', 'underside')
    """
    if rule not in ARRIS_RULES:
        raise TradeError(f"no rule for the arris is called {rule!r}: use outline or near")
    top, eye = number(course_height), number(eye_height)
    if top == eye:
        raise TradeError(
            f"the eye line runs along the course itself, at {size(top)} mm: no arris is nearer the eye; "
            "take the course above or below, or another eye height"
        )
    return TOP if (top > eye) == (rule == "outline") else UNDERSIDE


def angle_of_sight(height_difference: Exact, distance: Exact) -> Fraction:
    """Degrees from level at which the eye sees a point that much higher (lower: negative), `distance` mm off.

    Exact at 0 and 45 degrees, the only ones that are rational; otherwise to a millionth of a degree, kept as
    `squaring.settled` keeps a diagonal, so that it rounds as the true angle does. Raises `TradeError` unless
    the distance is above 0.

    >>> angle_of_sight(1000, 1000), float(angle_of_sight(1000, 2000))
    (Fraction(45, 1), 26.565051)
    """
    rise, away = number(height_difference), number(distance)
    if away <= 0:
        raise TradeError(f"a distance of {size(away)} mm gives no angle of sight: it must be above 0")
    if rise < 0:
        return -_degrees(-rise / away)
    return _degrees(rise / away)


def _degrees(slope: Fraction) -> Fraction:
    if slope in (0, 1):
        return Fraction(45 * slope)
    return settled(_fine_degrees(slope) * 2 * 10**6 // ONE)


def _fine_degrees(slope: Fraction) -> int:
    """Degrees in fixed point, with the slope brought to at most 1/2, where the series is quick."""
    if slope > 1:
        return 90 * ONE - _fine_degrees(1 / slope)
    if 2 * slope > 1:
        return 45 * ONE - _fine_degrees((1 - slope) / (1 + slope))
    return arctan(slope.numerator, slope.denominator) * 180 * ONE // PI if slope else 0
