"""How high courses come: three heights of the same courses, each from its own datum.

The height of c courses runs from the top of the brick below to the top of the last brick (c x course); the
face height is the bricks and the joints between them alone (one bed less); the clear height is the gap between
the brick below and the brick above (one bed more). Four courses to 300 mm is the trade's gauge for UK bricks
(a livery company's glossary). The three datums differ by a bed: a question must always say which is meant.
"""

from __future__ import annotations

import math
from fractions import Fraction

from courseware.trade.errors import TradeError, in_courses, size
from courseware.trade.exact import Exact, number
from courseware.trade.formats import UK_METRIC, Format

DATUMS = ("height", "face", "clear")


def height(courses: Exact, format: Format = UK_METRIC) -> Fraction:
    """Height in mm from the top of the brick below to the top of the last brick: a bed to every course.

    `courses` is a whole number of at least 1; anything else raises `TradeError` with the nearest.

    >>> height(4)
    Fraction(300, 1)
    """
    return whole_courses(courses) * format.course


def face_height(courses: Exact, format: Format = UK_METRIC) -> Fraction:
    """Height in mm on the face of the bricks alone: one bed fewer than courses. Raises as `height` does."""
    return whole_courses(courses) * format.course - format.bed


def clear_height(courses: Exact, format: Format = UK_METRIC) -> Fraction:
    """Height in mm clear between the brick below and the brick above: one bed more than courses.

    Raises `TradeError` as `height` does.
    """
    return whole_courses(courses) * format.course + format.bed


def courses_in(height: Exact, format: Format = UK_METRIC, datum: str = "height") -> int:
    """Courses that make exactly `height` mm from this datum: "height", "face" or "clear".

    Raises `TradeError` with the nearest heights when it is not a whole number of courses.

    >>> courses_in(290, datum="face")
    4
    """
    mm = number(height)
    beds = _beds(datum, format)
    courses = (mm - beds) / format.course
    if courses.denominator == 1 and courses.numerator > 0:
        return courses.numerator
    raise _between_courses(mm, math.floor(courses), beds, format, datum)


def courses_to_reach(height: Exact, format: Format = UK_METRIC) -> int:
    """Whole courses needed to reach `height` mm above the brick below: 1350 mm at 75 is exactly 18.

    Raises `TradeError` unless the height is above 0.
    """
    mm = number(height)
    if mm <= 0:
        raise TradeError(f"a height of {size(mm)} mm takes no courses: give a height above 0")
    return math.ceil(mm / format.course)


def gauge_rod(courses: Exact, format: Format = UK_METRIC) -> tuple[Fraction, ...]:
    """The marks of a gauge rod: the height in mm of the top of each course above the brick below.

    >>> [str(mm) for mm in gauge_rod(3)]
    ['75', '150', '225']
    """
    return tuple(course * format.course for course in range(1, whole_courses(courses) + 1))


def whole_courses(courses: Exact) -> int:
    """`courses` as an int, once it is sure that they can be laid; `TradeError` with the nearest if not."""
    exact = number(courses)
    if exact.denominator == 1 and exact.numerator > 0:
        return exact.numerator
    asked = f"{size(exact)} courses cannot be laid: courses are whole"
    if exact < 1:
        raise TradeError(f"{asked}, and the least is 1 course")
    below = math.floor(exact)
    raise TradeError(f"{asked}; the nearest are {below} and {in_courses(below + 1)}")


def _beds(datum: str, format: Format) -> Fraction:
    if datum == "height":
        return Fraction(0)
    if datum == "clear":
        return format.bed
    if datum == "face":
        return -format.bed
    raise TradeError(f"no datum is called {datum!r}: use {', '.join(DATUMS[:-1])} or {DATUMS[-1]}")


def _between_courses(mm: Fraction, below: int, beds: Fraction, format: Format, datum: str) -> TradeError:
    what = "a height" if datum == "height" else f"a {datum} height"
    nearest = [f"{size(n * format.course + beds)} mm ({in_courses(n)})" for n in (below, below + 1) if n > 0]
    if not nearest:
        nearest = [f"{size(format.course + beds)} mm ({in_courses(1)})"]
    verb = "are" if len(nearest) > 1 else "is"
    return TradeError(
        f"{what} of {size(mm)} mm is not a whole number of courses: the nearest {verb} {' and '.join(nearest)}"
    )
