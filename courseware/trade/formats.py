"""Brick formats: work sizes and joints in mm, and the modules they make."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from courseware.trade.exact import Number, TradeError, number

_INCH = Fraction("25.4")  # exact by the international definition of the inch


@dataclass(frozen=True, slots=True)
class Format:
    """A brick's work size with its joints, in mm: the perpend stands between bricks, the bed under them.

    Sizes may be given as anything `number` takes. Raises `TradeError` for a size not above 0 or a joint below 0.
    """

    name: str
    length: Fraction
    width: Fraction
    height: Fraction
    perpend: Fraction
    bed: Fraction
    module: Fraction = field(init=False, compare=False, repr=False)  # a brick and its perpend
    course: Fraction = field(init=False, compare=False, repr=False)  # a brick and its bed: the gauge
    half: Fraction = field(init=False, compare=False, repr=False)  # half a module

    def __init__(self, name: str, length: Number, width: Number, height: Number, perpend: Number, bed: Number) -> None:
        sizes = {"length": length, "width": width, "height": height, "perpend": perpend, "bed": bed}
        exact = {key: number(size) for key, size in sizes.items()}
        for key, size in exact.items():
            if size < 0 or (size == 0 and key in ("length", "width", "height")):
                raise TradeError(f"a brick's {key} cannot be {size} mm; give its work size in mm")
        exact["module"] = exact["length"] + exact["perpend"]
        exact["course"] = exact["height"] + exact["bed"]
        exact["half"] = exact["module"] / 2
        object.__setattr__(self, "name", name)
        for key, size in exact.items():
            object.__setattr__(self, key, size)


def _third(whole: int) -> Fraction:
    return whole + Fraction(1, 3)


def _in(whole: int, numerator: int = 0, denominator: int = 1) -> Fraction:
    return (whole + Fraction(numerator, denominator)) * _INCH


# Technical Information Sheet 9: coordinating 225 x 112.5 x 75; the 73 mm brick is its Table 3.
UK_METRIC = Format("UK metric", 215, "102.5", 65, 10, 10)
UK_73 = Format("UK 73 mm", 215, "102.5", 73, 10, 10)
# DIN 4172, octametric order: courses to 250 mm are 4 DF, 3 NF or 2 2DF.
GERMAN_NF = Format("German NF", 240, 115, 71, 10, _third(12))
GERMAN_DF = Format("German DF", 240, 115, 52, 10, "10.5")
GERMAN_2DF = Format("German 2DF", 240, 115, 113, 10, 12)
# Brick Industry Association, Technical Notes 10B: three courses to 8 in.
US_MODULAR = Format("US modular", _in(7, 5, 8), _in(3, 5, 8), _in(2, 1, 4), _in(0, 3, 8), _in(0, 5, 12))
# Bricks & Pavers Technical Manual 1.1.
AUSTRALIAN = Format("Australian", 230, 110, 76, 10, 10)

FORMATS: Mapping[str, Format] = {
    "UK_METRIC": UK_METRIC,
    "UK_73": UK_73,
    "GERMAN_NF": GERMAN_NF,
    "GERMAN_DF": GERMAN_DF,
    "GERMAN_2DF": GERMAN_2DF,
    "US_MODULAR": US_MODULAR,
    "AUSTRALIAN": AUSTRALIAN,
}
