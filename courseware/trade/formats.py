"""Brick formats: the brick's work size and the joints it is laid with, in mm."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from courseware.trade.errors import TradeError, size
from courseware.trade.exact import Exact, number

INCH = Fraction("25.4")


@dataclass(frozen=True, slots=True, init=False)
class Format:
    """A brick's work size (the brick alone) and its joints, in mm; `name` is words, "UK metric".

    `module` is one brick and its perpend, `course` one brick and its bed, `half` half a module. Raises
    `TradeError` unless every size is above 0 and no joint below 0. Two formats are equal when name, sizes
    and joints are.

    >>> Format("UK metric", 215, "102.5", 65, perpend=10, bed=10).module
    Fraction(225, 1)
    """

    name: str
    length: Fraction
    width: Fraction
    height: Fraction
    perpend: Fraction
    bed: Fraction
    module: Fraction = field(init=False, repr=False, compare=False)
    course: Fraction = field(init=False, repr=False, compare=False)
    half: Fraction = field(init=False, repr=False, compare=False)

    def __init__(self, name: str, length: Exact, width: Exact, height: Exact, perpend: Exact, bed: Exact) -> None:
        """Take each figure exactly as written."""
        sizes = {"length": number(length), "width": number(width), "height": number(height)}
        joints = {"perpend": number(perpend), "bed": number(bed)}
        for what, mm in sizes.items():
            if mm <= 0:
                raise TradeError(f"{name}: a brick's {what} of {size(mm)} mm cannot be: it must be above 0")
        for what, mm in joints.items():
            if mm < 0:
                raise TradeError(f"{name}: a {what} of {size(mm)} mm cannot be laid: it must be 0 or more")
        module = sizes["length"] + joints["perpend"]
        worked_out = {"module": module, "course": sizes["height"] + joints["bed"], "half": module / 2}
        for key, value in {"name": name, **sizes, **joints, **worked_out}.items():
            object.__setattr__(self, key, value)


# Technical Information Sheet 9, Brickwork Dimensions: co-ordinating 225 x 112.5 x 75; Table 3 for the 73 mm brick
UK_METRIC = Format("UK metric", 215, "102.5", 65, perpend=10, bed=10)
UK_73 = Format("UK 73 mm", 215, "102.5", 73, perpend=10, bed=10)

# DIN 4172, octametric order: 4 courses DF = 3 courses NF = 2 courses 2DF = 250 mm
GERMAN_NF = Format("German NF", 240, 115, 71, perpend=10, bed=Fraction(250, 3) - 71)
GERMAN_DF = Format("German DF", 240, 115, 52, perpend=10, bed=Fraction(250, 4) - 52)
GERMAN_2DF = Format("German 2DF", 240, 115, 113, perpend=10, bed=Fraction(250, 2) - 113)

# Brick Industry Association, Technical Notes 10B: three courses are 8 in because the bed is 5/12 in
US_MODULAR = Format(
    "US modular",
    length=Fraction(61, 8) * INCH,
    width=Fraction(29, 8) * INCH,
    height=Fraction(9, 4) * INCH,
    perpend=Fraction(3, 8) * INCH,
    bed=Fraction(5, 12) * INCH,
)

# Bricks & Pavers Technical Manual 1.1
AUSTRALIAN = Format("Australian", 230, 110, 76, perpend=10, bed=10)

FORMATS: Mapping[str, Format] = MappingProxyType(
    {
        "UK_METRIC": UK_METRIC,
        "UK_73": UK_73,
        "GERMAN_NF": GERMAN_NF,
        "GERMAN_DF": GERMAN_DF,
        "GERMAN_2DF": GERMAN_2DF,
        "US_MODULAR": US_MODULAR,
        "AUSTRALIAN": AUSTRALIAN,
    }
)
"""The formats that come with the trade core, by the name a bank gives them."""
