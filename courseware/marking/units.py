"""Which units a learner may write, what they measure, and how one becomes another, exactly."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: what it measures, and how many of the measure's first unit it is."""

    measures: str
    size: Fraction


# Names of a unit as they are written, small letters. Sizes are those of the SI; an inch is 25.4 mm (ISO 80000-3).
_NAMES: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "length": {
        "1": ("mm", "millimetre", "millimetres", "millimeter", "millimeters", "mil", "mils"),
        "10": ("cm", "centimetre", "centimetres", "centimeter", "centimeters"),
        "1000": ("m", "metre", "metres", "meter", "meters"),
        "25.4": ("in", "inch", "inches", '"', "″"),
    },
    "area": {
        "1": ("mm²", "mm2", "mm^2", "sq mm", "sqmm", "square millimetres"),
        "100": ("cm²", "cm2", "cm^2", "sq cm", "sqcm"),
        "1000000": ("m²", "m2", "m^2", "sq m", "sqm", "square metre", "square metres", "square meters"),
    },
    "volume": {
        "1": ("mm³", "mm3", "mm^3"),
        "1000000": ("l", "litre", "litres", "liter", "liters"),
        "1000000000": ("m³", "m3", "m^3", "cum", "cu m", "cubic metre", "cubic metres", "cubic meters"),
    },
    "mass": {
        "1": ("g", "gram", "grams"),
        "1000": ("kg", "kilo", "kilos", "kilogram", "kilograms"),
        "1000000": ("t", "tonne", "tonnes"),
    },
    "angle": {"1": ("°", "deg", "degs", "degree", "degrees")},
    "time": {"1": ("min", "mins", "minute", "minutes"), "60": ("h", "hr", "hrs", "hour", "hours")},
    "share": {"1": ("%", "per cent", "percent")},
    "money": {"1": ("p", "pence")},
    "loudness": {"1": ("db", "db(a)", "dba")},
}
_UNITS = {
    name: Unit(measures, Fraction(size))
    for measures, sizes in _NAMES.items()
    for size, names in sizes.items()
    for name in names
}
_COUNTED = frozenset({"no", "nos", "nr", "off"})  # "60 no.": how a bill of quantities counts
_TOO_SHORT = frozenset({"M", "G", "T", "L", "H", "P"})  # a lone capital may mean something else


def unit_named(text: str, own: str) -> Unit | None:
    """The unit that `text` names in an answer whose printed unit is `own`; None where it is not known."""
    if text in _TOO_SHORT:
        return None
    name = " ".join(text.casefold().split())
    if _alike(name, own.casefold()) or (name in _COUNTED and own and own.casefold() not in _UNITS):
        return own_unit(own)
    return _UNITS.get(name)


def own_unit(own: str) -> Unit:
    """The printed unit itself; one that is in no table counts things."""
    return _UNITS.get(own.casefold(), Unit(own, Fraction(1)))


def _alike(name: str, own: str) -> bool:
    """The same word, with or without the s of a plural."""
    return bool(own) and name.removesuffix("s") == own.removesuffix("s")
