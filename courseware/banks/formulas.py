"""A formula once it is checked, what formulas may call, and their exact arithmetic; `compile_formula` makes one."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction
from types import CodeType
from typing import Literal

from courseware.banks.figures import Figure, whole_as_int

Kind = Literal["number", "truth", "word"]
Value = Figure | bool | str

_MOST_EXPONENT = 12
_LARGEST = 10**24


class FormulaFault(ValueError):
    """A formula that cannot be used: what is wrong and what was expected."""

    def __init__(self, wrong: str, expected: str) -> None:
        super().__init__(f"{wrong}; {expected}")
        self.wrong, self.expected = wrong, expected


class FormulaImpossible(ArithmeticError):
    """A formula that gives no figure for these numbers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Function:
    """A function formulas may call: its parameters (name, kind), how many must be given, its result's kind."""

    call: Callable[..., Value]
    parameters: tuple[tuple[str, Kind], ...]
    needed: int
    result: Kind
    repeats: bool = False  # takes any number of arguments of its first parameter's kind
    says: str = ""  # what it gives, in a line for the manual


@dataclass(frozen=True, slots=True, kw_only=True)
class Formula:
    """A checked formula. `names` are those it takes from the variant: givens and earlier parts."""

    text: str
    kind: Kind
    names: frozenset[str]
    code: CodeType
    fixed: Mapping[str, object]

    def value(self, scope: Mapping[str, Value]) -> Value:
        """The exact value for a variant. Raises `FormulaImpossible`, or `TradeError` from the trade core."""
        try:
            # Safe: the code was compiled from rebuilt, allow-listed nodes, and no builtins are in reach.
            return eval(self.code, self.fixed, scope)  # type: ignore[arg-type,no-any-return]  # a dict at run time
        except ZeroDivisionError:
            raise FormulaImpossible(f"`{self.text}` divides by nothing") from None
        except FormulaImpossible as why:
            raise FormulaImpossible(f"`{self.text}`: {why}") from None

    def figure(self, scope: Mapping[str, Value]) -> Figure:
        """The value of a number formula, refused when it is absurdly large."""
        value: Figure = self.value(scope)  # type: ignore[assignment]  # kind was checked when the bank was read
        if type(value) is int:
            if -_LARGEST < value < _LARGEST:
                return value
        elif -_LARGEST < value.numerator < _LARGEST and value.denominator < _LARGEST:
            return whole_as_int(value)
        raise FormulaImpossible(f"`{self.text}` gives a figure of more than 24 digits")


def kind_of(value: Value) -> Kind:
    """Whether a value is a number, a truth or a word."""
    return "truth" if isinstance(value, bool) else "word" if isinstance(value, str) else "number"


def over(above: Figure, below: Figure) -> Figure:
    """Exact division. Raises `ZeroDivisionError`."""
    if type(above) is int and type(below) is int:
        whole, left_over = divmod(above, below)
        return Fraction(above, below) if left_over else whole
    return above / below if type(above) is Fraction else Fraction(above) / below


def power(base: Figure, exponent: Figure) -> Figure:
    """An exact power. Raises `FormulaImpossible` for one that is not whole, or too large to be worked out."""
    exponent = whole_as_int(exponent)
    if type(exponent) is not int or not -_MOST_EXPONENT <= exponent <= _MOST_EXPONENT:
        raise FormulaImpossible(f"a power must be a whole number from -{_MOST_EXPONENT} to {_MOST_EXPONENT}")
    if not -_LARGEST < base < _LARGEST or Fraction(base).denominator >= _LARGEST:
        raise FormulaImpossible("a power of a figure of more than 24 digits")
    return whole_as_int(Fraction(base) ** exponent)
