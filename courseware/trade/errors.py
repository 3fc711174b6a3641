"""What cannot be built, and how sizes are written out in the message that says so."""

from __future__ import annotations

from fractions import Fraction

_LONGEST = 100  # bits: a figure longer than some thirty digits is not a size of brickwork
_PLACES = 6
_WIDEST = 1000  # the largest denominator still written as a fraction


class TradeError(ValueError):
    """An impossible ask. Its message says what was asked, why it cannot be built and the nearest that can."""


def size(value: Fraction | int) -> str:
    """The figure as a message shows it: 910, 112.5, 83 1/3; "about 1.236" where it has no short exact form.

    >>> size(Fraction(225, 2)), size(Fraction(250, 3)), size(-75)
    ('112.5', '83 1/3', '-75')
    """
    exact = Fraction(value)
    if exact.numerator.bit_length() > _LONGEST + exact.denominator.bit_length():
        return "a figure too long to write"
    sign, (whole, part) = "-" if exact < 0 else "", divmod(abs(exact), 1)
    scaled = part * 10**_PLACES
    if scaled.denominator == 1:
        decimals = f"{scaled.numerator:0{_PLACES}d}".rstrip("0")
        return f"{sign}{whole}.{decimals}" if decimals else f"{sign}{whole}"
    if part.denominator <= _WIDEST:
        return f"{sign}{whole} {part}" if whole else f"{sign}{part}"
    thousandths = round(abs(exact) * 1000)
    return f"about {sign}{thousandths // 1000}.{thousandths % 1000:03d}"


def in_bricks(bricks: Fraction | int) -> str:
    """A number of half bricks as a bricklayer says it: half a brick, 1 brick, 3½ bricks.

    >>> in_bricks(Fraction(1, 2)), in_bricks(1), in_bricks(Fraction(7, 2))
    ('half a brick', '1 brick', '3½ bricks')
    """
    if 2 * bricks == 1:
        return "half a brick"
    return f"{halves(bricks)} brick" if bricks == 1 else f"{halves(bricks)} bricks"


def halves(bricks: Fraction | int) -> str:
    """The figure alone: 3, 3½, ½. Anything but a multiple of 1/2 is written as `size` writes it."""
    whole, part = divmod(Fraction(bricks), 1)
    if bricks > 0 and 2 * part == 1:
        return f"{whole}½" if whole else "½"
    return size(bricks)


def in_courses(courses: int) -> str:
    """1 course, 4 courses."""
    return "1 course" if courses == 1 else f"{courses} courses"
