"""What a kind of drawing takes, measures and says: the words in which the tables of kinds are written."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from courseware.trade import Format

Figures = Mapping[str, Fraction | int | str]
Measure = Callable[[Figures, Format], Fraction | int]
Build = Callable[[Figures, Format], object]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingKind:
    """A kind of drawing. Numbers lie between two limits (least, most); words are one of those listed."""

    arguments: Mapping[str, tuple[Fraction, Fraction] | frozenset[str]]
    optional: Mapping[str, Fraction | str]  # arguments that may be left out, with what is then taken
    dimensions: Mapping[str, Measure]  # each with its size, from the trade core: in mm unless it stands in `units`
    says: str  # one line for the manual
    units: Mapping[str, str] = field(default_factory=dict)  # of what is not in mm
    told: Mapping[str, Mapping[str, str]] = field(default_factory=dict)  # by argument and word, added to `says`
    to_draw_in: bool = False  # made for the learner to draw in
    builds: Build | None = None  # raises `TradeError` for what the dimensions let through and cannot be drawn

    def in_words(self, figures: Mapping[str, Fraction | int | str]) -> str:
        """What the drawing shows, with what its words say of it."""
        return self.says + "".join(by_word.get(str(figures[name]), "") for name, by_word in self.told.items())

    def labelled(self, dimension: str, text: str) -> str:
        """The text of a dimension as it stands in the drawing: in mm bare, else with its unit.

        >>> DrawingKind(arguments={}, optional={}, dimensions={}, says="", units={"turn": "°"}).labelled("turn", "90")
        '90°'
        """
        unit = self.units.get(dimension, "")
        return f"{text} {unit}" if unit[:1].isalpha() else text + unit


def span(least: int | str, most: int | str) -> tuple[Fraction, Fraction]:
    """The limits of a number."""
    return Fraction(least), Fraction(most)


def own(name: str) -> Measure:
    """An argument that is a size itself."""
    return lambda figures, _: Fraction(figures[name])


def built(size: Callable[[Fraction | int | str, Format], Fraction], argument: str) -> Measure:
    """A size that the trade core works out of one argument."""
    return lambda figures, brick: size(figures[argument], brick)
