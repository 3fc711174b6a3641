"""A formula as terms that can be compared: `2 * a * b` and `b * (a * 2)` are one term, and either holds `a * b`.

A term is a nested tuple with its kind first. Sums and products are flat and sorted; a product has one coefficient.
"""

from __future__ import annotations

import ast
from collections import Counter
from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import lru_cache
from math import prod
from typing import Any

from courseware.banks.figures import whole_as_int
from courseware.banks.formulas import FormulaImpossible, Value

Term = tuple[Any, ...]
_ROUNDING = (("call", "nearest"), ("call", "up"), ("call", "down"))
_COMPARED: Mapping[str, Callable[[Any, Any], bool]] = {
    "Eq": lambda a, b: a == b,
    "NotEq": lambda a, b: a != b,
    "Lt": lambda a, b: a < b,
    "LtE": lambda a, b: a <= b,
    "Gt": lambda a, b: a > b,
    "GtE": lambda a, b: a >= b,
}


@lru_cache(maxsize=10_000)
def term(text: str) -> Term:
    """The term of a formula that has been checked when its bank was read."""
    return _term(ast.parse(text, mode="eval").body)


def unrounded(whole: Term) -> Term:
    """What a term is before it is rounded: `a` for `nearest(a, 1)`, and for `nearest(a, 1) if a > 0 else 0`."""
    if whole[0] == "if" and whole[1][:2] in _ROUNDING:
        return unrounded(whole[1])
    return unrounded(whole[2]) if whole[:2] in _ROUNDING else whole


def worked_out(whole: Term) -> bool:
    """Whether a term is more than a name or a figure: something that somebody had to work out."""
    return whole[0] not in ("figure", "name") and bool(names_in(whole))


def names_in(whole: Term) -> frozenset[str]:
    """The names that a term is made of."""
    if whole[0] == "name":
        return frozenset([whole[1]])
    return frozenset().union(*map(names_in, filter(_is_term, whole)))


def calls(whole: Term) -> bool:
    """Whether a term holds a function."""
    return whole[0] == "call" or any(map(calls, filter(_is_term, whole)))


def holds(whole: Term, part: Term) -> bool:
    """Whether `part` stands anywhere in `whole`."""
    return replaced(whole, part, ("figure", 0)) != whole


def replaced(whole: Term, part: Term, by: Term) -> Term:
    """`whole` with `by` in place of `part` wherever it stands, in a sum or product among its other terms too."""
    if whole == part:
        return by
    inside = tuple(replaced(inner, part, by) if _is_term(inner) else inner for inner in whole)
    if whole[0] in ("sum", "product") and inside != whole:
        again = [*inside[1:], ("figure", 1)] if whole[0] == "product" else list(inside[1:])
        return _product(again) if whole[0] == "product" else _sum(again)
    if whole[0] == part[0] and whole[0] in ("sum", "product"):
        left = Counter(whole[1:])
        left.subtract(Counter(_but_coefficient(part)))
        if min(left.values()) >= 0:
            rest = [*left.elements(), by]
            if whole[0] == "sum":
                return _sum(rest)
            if _ends(_coefficient(whole) / _coefficient(part)):
                return _product([*rest, ("figure", 1 / _coefficient(part))])
    return inside


def evaluated(whole: Term, scope: Mapping[str, Value], fixed: Mapping[str, object]) -> Value:
    """The exact value of a term; `fixed` holds the constants and functions of its formula.

    Raises `FormulaImpossible`, or `TradeError` from the trade core.
    """
    kind, *inside = whole
    if kind == "figure":
        return inside[0]  # type: ignore[no-any-return]  # a figure, truth or word as it stood in the formula
    if kind == "name":
        return scope[inside[0]] if inside[0] in scope else fixed[inside[0]]  # type: ignore[return-value]  # a constant
    if kind == "if":
        yes, test, no = inside
        return evaluated(yes if evaluated(test, scope, fixed) else no, scope, fixed)
    if kind == "and":
        return all(evaluated(inner, scope, fixed) for inner in inside)
    if kind == "or":
        return any(evaluated(inner, scope, fixed) for inner in inside)
    values = [evaluated(inner, scope, fixed) if _is_term(inner) else inner for inner in inside]
    try:
        worked: Value = _WORKED[kind](values, fixed)
    except ZeroDivisionError:
        raise FormulaImpossible("it divides by nothing") from None
    return worked


def _call(values: list[Any], fixed: Mapping[str, object]) -> Any:
    name, *rest = values
    plain = [value for value in rest if not isinstance(value, tuple)]
    named = {value[0]: value[1] for value in rest if isinstance(value, tuple)}
    return fixed[name](*plain, **named)  # type: ignore[operator]  # the functions of a formula


def _compare(values: list[Any], _: Mapping[str, object]) -> bool:
    ops, *sides = values
    return all(_COMPARED[op](a, b) for op, a, b in zip(ops.split(), sides, sides[1:], strict=False))


_WORKED: Mapping[str, Callable[[list[Any], Mapping[str, object]], Any]] = {
    "sum": lambda values, _: whole_as_int(sum(values, Fraction(0))),
    "product": lambda values, _: whole_as_int(prod(values, start=Fraction(1))),
    "over": lambda values, _: whole_as_int(1 / Fraction(values[0])),
    "power": lambda values, fixed: fixed["POWER"](*values),  # type: ignore[operator]  # bounded, as in the formula
    "whole": lambda values, _: values[0] // values[1],
    "left": lambda values, _: values[0] % values[1],
    "not": lambda values, _: not values[0],
    "keyword": lambda values, _: tuple(values),
    "call": _call,
    "compare": _compare,
}


def _term(node: ast.expr) -> Term:
    match node:
        case ast.Constant(value=bool() | str() as value):
            return ("figure", value)
        case ast.Constant(value=value):
            return ("figure", Fraction(str(value)))
        case ast.Name(id=name):
            return ("name", name)
        case ast.UnaryOp(op=ast.USub(), operand=inner):
            return _product([("figure", Fraction(-1)), _term(inner)])
        case ast.UnaryOp(op=ast.Not(), operand=inner):
            return ("not", _term(inner))
        case ast.UnaryOp(operand=inner):
            return _term(inner)
        case ast.BinOp(left=left, op=op, right=right):
            return _binary(op, _term(left), _term(right))
        case ast.BoolOp(op=op, values=values):
            return ("and" if isinstance(op, ast.And) else "or", *(_term(value) for value in values))
        case ast.Compare(left=left, ops=ops, comparators=others):
            return ("compare", " ".join(type(op).__name__ for op in ops), *map(_term, (left, *others)))
        case ast.IfExp(test=test, body=yes, orelse=no):
            return ("if", _term(yes), _term(test), _term(no))
        case ast.Call(func=ast.Name(id=name), args=args, keywords=keywords):
            named = [("keyword", str(k.arg), _term(k.value)) for k in keywords]
            return ("call", name, *map(_term, args), *named)
    raise TypeError(ast.dump(node))


def _binary(op: ast.operator, left: Term, right: Term) -> Term:
    match op:
        case ast.Add():
            return _sum([left, right])
        case ast.Sub():
            return _sum([left, _product([("figure", Fraction(-1)), right])])
        case ast.Mult():
            return _product([left, right])
        case ast.Div():
            return _product([left, _over(right)])
        case ast.Pow():
            return ("power", left, right)
        case ast.FloorDiv():
            return ("whole", left, right)
        case _:
            return ("left", left, right)


def _sum(terms: list[Term]) -> Term:
    flat = [inner for one in terms for inner in (one[1:] if one[0] == "sum" else (one,))]
    figures = sum((one[1] for one in flat if one[0] == "figure"), Fraction(0))
    rest = [one for one in flat if one[0] != "figure"] + ([("figure", figures)] if figures else [])
    return rest[0] if len(rest) == 1 else ("sum", *sorted(rest, key=repr)) if rest else ("figure", Fraction(0))


def _product(terms: list[Term]) -> Term:
    flat = [inner for one in terms for inner in (one[1:] if one[0] == "product" else (one,))]
    coefficient = prod((one[1] for one in flat if one[0] == "figure"), start=Fraction(1))
    rest = [one for one in flat if one[0] != "figure"] + ([("figure", coefficient)] if coefficient != 1 else [])
    return rest[0] if len(rest) == 1 else ("product", *sorted(rest, key=repr)) if rest else ("figure", coefficient)


def _over(below: Term) -> Term:
    if below[0] == "figure" and below[1]:
        return ("figure", 1 / Fraction(below[1]))
    if below[0] == "product":
        return _product([_over(inner) for inner in below[1:]])
    return below[1] if below[0] == "over" else ("over", below)


def _coefficient(product: Term) -> Fraction:
    return prod((inner[1] for inner in product[1:] if inner[0] == "figure"), start=Fraction(1))


def _ends(times: Fraction) -> bool:
    """Whether one figure can come of the other in a step: times, or divided by, a figure with an end."""
    return any(10**24 % side == 0 for side in (times.numerator, times.denominator))


def _but_coefficient(whole: Term) -> tuple[Term, ...]:
    """The terms of a sum, or those of a product but for its figure."""
    return tuple(inner for inner in whole[1:] if whole[0] == "sum" or inner[0] != "figure")


def _is_term(inner: object) -> bool:
    return isinstance(inner, tuple) and bool(inner) and isinstance(inner[0], str)
