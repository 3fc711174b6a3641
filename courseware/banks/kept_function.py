"""A function of the trade core made ready for formulas, its results kept."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import lru_cache

from courseware.banks.figures import whole_as_int
from courseware.banks.formulas import Function, Kind, Value

_MEMORY = 4096  # results kept a function: more than any exercise's range of arguments


def function(
    call: Callable[..., object],
    parameters: str,
    says: str,
    *,
    needed: int | None = None,
    result: Kind = "number",
    repeats: bool = False,
    words: Mapping[str, Kind] | None = None,
) -> Function:
    """A formula function whose results are kept, since a proof asks for the same few again and again.

    Those that may be left out may be named, and are named in `call` as in `parameters`. `says` is what it gives, in a
    line for the manual.
    """
    names = parameters.split()

    @lru_cache(maxsize=_MEMORY)
    def kept(*args: Value, **named: Value) -> Value:
        value = call(*args, **named)
        return whole_as_int(value) if isinstance(value, Fraction) else value  # type: ignore[return-value]  # by the table

    return Function(
        call=kept,
        parameters=tuple((name, (words or {}).get(name, "number")) for name in names),
        needed=len(names) if needed is None else needed,
        result=result,
        repeats=repeats,
        says=says,
    )
