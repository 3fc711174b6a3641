"""How a figure is rounded and written out: whole numbers, decimals, or a fraction such as 12⅓."""

from __future__ import annotations

from fractions import Fraction

Figure = int | Fraction

_VULGAR = {
    (1, 3): "⅓", (2, 3): "⅔", (1, 6): "⅙", (5, 6): "⅚", (1, 8): "⅛", (3, 8): "⅜", (5, 8): "⅝", (7, 8): "⅞",
    (1, 4): "¼", (3, 4): "¾", (1, 2): "½",
}  # fmt: skip
_MOST_PLACES = 6
_MOST_DIGITS = 15


class DoesNotWriteOut(ValueError):
    """A figure with no short exact form: it must be rounded before it is shown."""


def whole_as_int(value: Figure) -> Figure:
    """The same figure, as an int where it is whole."""
    if type(value) is Fraction and value.denominator == 1:
        return value.numerator
    return value


def half_up(value: Figure, places: int) -> Figure:
    """`value` to `places` decimal places, halves upwards: 0.125 to two places is 0.13."""
    if type(value) is int:
        return value
    scale, above, below = 10**places, value.numerator, value.denominator
    return whole_as_int(Fraction((2 * above * scale + below) // (2 * below), scale))


def write_out(value: Figure, places: int | None = None, *, fraction: bool = False) -> str:
    """`value` as it is printed: `910`, `112.5`, `12⅓`; with `places`, that many decimals: `1.230`.

    `fraction` writes parts of a unit as fractions, as inches are: `7⅝`. Raises `DoesNotWriteOut` when the
    exact value has no decimal of six places and no fraction in sixteenths or sixths.
    """
    if type(value) is int and places is None:
        _refuse_long(value)
        return str(value) if value >= 0 else f"−{-value}"
    sign = "−" if value < 0 else ""
    whole, part = divmod(abs(Fraction(value)), 1)
    _refuse_long(whole)
    if places is not None:
        digits = half_up(abs(Fraction(value)), places)
        whole, part = divmod(Fraction(digits), 1)
        return sign + str(whole) + (f".{int(part * 10**places):0{places}d}" if places else "")
    if not part:
        return sign + str(whole)
    if not fraction:
        for count in range(1, _MOST_PLACES + 1):
            if (part * 10**count).denominator == 1:
                return f"{sign}{whole}.{int(part * 10**count):0{count}d}"
    return sign + _mixed(whole, part)


def exact_text(value: Figure) -> str:
    """`value` exactly, as a sitting keeps it: a plain decimal where there is one, else `37/3`."""
    value = Fraction(value)
    for count in range(_MOST_PLACES + 1):
        scaled = value * 10**count
        if scaled.denominator == 1:
            sign, digits = ("-" if scaled < 0 else ""), str(abs(scaled.numerator)).rjust(count + 1, "0")
            return sign + (f"{digits[:-count]}.{digits[-count:]}" if count else digits)
    return f"{value.numerator}/{value.denominator}"


def _mixed(whole: int, part: Fraction) -> str:
    pair = (part.numerator, part.denominator)
    if pair in _VULGAR:
        return (str(whole) if whole else "") + _VULGAR[pair]
    if part.denominator in (9, 12, 16):
        return (f"{whole} " if whole else "") + f"{pair[0]}/{pair[1]}"
    raise DoesNotWriteOut("it does not write out exactly: round it, as in nearest(x, 0.01)")


def _refuse_long(whole: int) -> None:
    if abs(whole) >= 10**_MOST_DIGITS:
        raise DoesNotWriteOut(f"it has more than {_MOST_DIGITS} digits")
