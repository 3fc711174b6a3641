"""What a learner wrote as a figure: read exactly, in the part's own unit, or left for a person. Never guessed."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from typing import Literal

from courseware.marking.units import own_unit, unit_named

CellReading = Literal["blank", "not reached", "figure", "wrong unit", "person"]

LONGEST = 60  # characters: a longer cell is not a figure
_PLAIN = str.maketrans(  # blanks of other widths, the stroke of fractions, and full-width figures and signs
    {**dict.fromkeys("\u00a0\u2007\u2009\u202f", " "), "\u2044": "/"}
    | {chr(character + 0xFEE0): chr(character) for character in b"0123456789.,+-/%"}
)
UNREACHED = frozenset({"nr", "n.r.", "n.r", "not reached"})
_VULGAR = {
    "½": (1, 2), "⅓": (1, 3), "⅔": (2, 3), "¼": (1, 4), "¾": (3, 4), "⅕": (1, 5), "⅖": (2, 5), "⅗": (3, 5), "⅘": (4, 5),
    "⅙": (1, 6), "⅚": (5, 6), "⅛": (1, 8), "⅜": (3, 8), "⅝": (5, 8), "⅞": (7, 8),
}  # fmt: skip
_FIGURE = re.compile(
    rf"""(?P<sign>[-+−–]?)\ ?(?:
        (?:(?P<whole>[0-9]+)\ ?)?(?P<vulgar>[{"".join(_VULGAR)}])
      | (?:(?P<mixed>[0-9]+)\ )?(?P<over>[0-9]+)/(?P<under>[0-9]+)
      | (?P<plain>[0-9.,]*[0-9](?:\ [0-9]{{3}})*(?:[.,][0-9]+)?)
    )\ ?(?P<unit>[^0-9\s.,+−–-][^0-9]*[23]?)?""",
    re.VERBOSE,
)
_BY_SPACES = re.compile(r"[0-9]{1,3}(?: [0-9]{3})+(?:[.,][0-9]+)?")
_BY_COMMAS = re.compile(r"[0-9]{1,3}(?:,[0-9]{3})+\.[0-9]+|[0-9]{1,3}(?:,[0-9]{3}){2,}")
_BY_POINTS = re.compile(r"[0-9]{1,3}(?:\.[0-9]{3})+,[0-9]+")
_DECIMAL = re.compile(r"[0-9]*[.,]?[0-9]+")
_WHICH = re.compile(r"\b(?:which|what) (?:is the (?:first|last|next) )?(?P<noun>[a-z]{4,})")
_NUMBERED = re.compile(
    r"(?:the )?(?:(?P<before>[a-z]+) )?(?P<figure>[0-9]{1,4})(?P<ending>st|nd|rd|th)?(?: (?P<after>[a-z]+))?"
)
_WAYS = frozenset({"long", "wide", "high", "deep", "thick", "tall", "apart", "above", "below"})
_EITHER = re.compile(r"[1-9][0-9]{0,2},[0-9]{3}")


@dataclass(frozen=True, slots=True)
class WrittenFigure:
    """A cell as read. `figures` are in the part's unit: two where a comma could be either, one else, or none.

    `bare` are the figures without their unit, `decimals` the decimals typed, `places` those in the part's unit.
    """

    reading: CellReading
    figures: tuple[Fraction, ...] = ()
    bare: tuple[Fraction, ...] = ()
    decimals: int = 0
    places: int = 0
    why: str = ""


@lru_cache(maxsize=20_000)
def read_figure(typed: str, unit: str, ask: str = "") -> WrittenFigure:
    """What stands in the cell of a part printed with `unit`; words of its own question, `ask`, may stand beside it."""
    text = " ".join(typed.translate(_PLAIN).split())
    if not text:
        return WrittenFigure("blank")
    if text.casefold() in UNREACHED:
        return WrittenFigure("not reached")
    if len(text) > LONGEST:
        return WrittenFigure("person", why="it is too long for a figure")
    if text.endswith(".") and not text.endswith(".."):
        text = text[:-1].rstrip()
    found = _FIGURE.fullmatch(_without_asked(text, unit, ask.casefold()))
    if found is None:
        return WrittenFigure("person", why="it does not read as one figure")
    values, decimals = _values(found)
    if not values:
        return WrittenFigure("person", why="it does not read as one figure")
    if found["sign"] in {"-", "−", "–"}:
        values = tuple(-value for value in values)
    return _in_unit(values, decimals, (found["unit"] or "").strip(), unit)


def _without_asked(text: str, unit: str, ask: str) -> str:
    """The figure alone of `course 24` or `24th` where a course is asked for, of `6 bricks long` where a length is."""
    words = text.casefold()
    if unit:
        figure, _, way = words.rpartition(" ")
        asked = way in _WAYS and re.search(rf"\bhow (?:far |many [a-z]+ )?{way}\b", ask)
        return text[: len(figure)] if asked else text
    which, found = _WHICH.search(ask), _NUMBERED.fullmatch(words)
    if which is None or found is None or (found["before"] and found["after"]):
        return text
    beside = found["before"] or found["after"]
    known = beside in {None, which["noun"]} and found["ending"] in {None, _ending(int(found["figure"]))}
    return found["figure"] if known else text


def _ending(number: int) -> str:
    """What an ordinal ends with: 21st, 112th."""
    return "th" if number % 100 in {11, 12, 13} else {1: "st", 2: "nd", 3: "rd"}.get(number % 10, "th")


def settled(written: WrittenFigure, expected: Fraction, known: Collection[Fraction | int] = ()) -> Fraction | None:
    """The one figure meant: of two, that which alone lies within a factor of ten of the answer; else None.

    `known` are figures that a learner may well have come to (slips, other routes): where the other reading is one of
    them, either may be meant.
    """
    if len(written.figures) == 1:
        return written.figures[0]
    near = [figure for figure in written.figures if expected <= 10 * figure and figure <= 10 * expected]
    others = [figure for figure in written.figures if figure not in near]
    return near[0] if len(near) == 1 and not any(figure in known for figure in others) else None


def _in_unit(values: tuple[Fraction, ...], decimals: int, named: str, own: str) -> WrittenFigure:
    if not named:
        return WrittenFigure("figure", values, values, decimals, decimals)
    written, wanted = unit_named(named, own), own_unit(own)
    if written is None:
        return WrittenFigure("person", why=f"the unit `{named}` is not known here")
    if written.measures != wanted.measures:
        return WrittenFigure("wrong unit", values, values, decimals, decimals)
    factor = written.size / wanted.size
    places = 0
    while factor * 10**places < 10**decimals:  # 0.910 m has no decimals in mm, 12537 mm has three in m
        places += 1
    return WrittenFigure("figure", tuple(value * factor for value in values), values, decimals, places)


def _values(found: re.Match[str]) -> tuple[tuple[Fraction, ...], int]:
    """The figure, or both where a comma could be either, and how many decimals were typed."""
    if found["vulgar"]:
        return (int(found["whole"] or 0) + Fraction(*_VULGAR[found["vulgar"]]),), 0
    if found["under"]:
        if not int(found["under"]):
            return (), 0
        return (int(found["mixed"] or 0) + Fraction(int(found["over"]), int(found["under"])),), 0
    return _plain(found["plain"])


def _plain(text: str) -> tuple[tuple[Fraction, ...], int]:
    if _EITHER.fullmatch(text):
        return (Fraction(text.replace(",", "")), Fraction(text.replace(",", "."))), 3
    if _BY_SPACES.fullmatch(text):
        text = text.replace(" ", "")
    elif _BY_COMMAS.fullmatch(text):
        text = text.replace(",", "")
    elif _BY_POINTS.fullmatch(text):
        text = text.replace(".", "")
    if not _DECIMAL.fullmatch(text):
        return (), 0
    text = text.replace(",", ".")
    return (Fraction(text if not text.startswith(".") else "0" + text),), len(text.partition(".")[2])
