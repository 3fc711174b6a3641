"""Figures in words for a reader who knows no statistics: counts, shares, and figures with their intervals."""

from __future__ import annotations

from math import floor

from courseware.statistics.intervals import Index, Interval

DASH = "–"
SMALL = 30  # scripts: below this, chance has a large say (common practice, no source)
_FAST = "\u00a0"  # a space at which no line breaks


def two(value: float | None) -> str:
    """A figure to two places: `−0.25`; `–` where there is none."""
    if value is None:
        return DASH
    text = f"{abs(value):.2f}"
    return f"−{text}" if value < 0 and float(text) else text


def between(interval: Interval | None) -> str:
    """`0.12 to 0.80`; a limit below −1 is only said to be that."""
    if interval is None:
        return DASH
    low = "below −1" if interval.low < -1 else two(interval.low)
    return f"{low} to {two(interval.high)}"


def share(found: Index | None) -> str:
    """A share with its interval: `58 % (39 to 86)`."""
    if found is None:
        return DASH
    percent = f"{_whole(found.value * 100)}{_FAST}%"
    if found.interval is None:
        return percent
    return f"{percent} ({_whole(found.interval.low * 100)} to {_whole(found.interval.high * 100)})"


def whole_percent(share: float) -> int:
    """A share in per cent, to the nearest whole one: `58`."""
    return _whole(share * 100)


def _whole(value: float) -> int:
    """To the nearest whole number, halves upwards."""
    return floor(value + 0.5)


def plain(name: str) -> str:
    """A name of the banks as words: `opening-for-a-panel` is `opening for a panel`."""
    words = name.replace("-", " ").replace("_", " ").split(" ")
    return " ".join(word.upper() if word in {"uk", "us"} else word for word in words)


def points(change: Index | None) -> str:
    """A change of a share in per cent of the marks, with its interval: `+23 (5 to 41)`; `–` where there is none."""
    if change is None:
        return DASH
    value = signed(change.value)
    if change.interval is None:
        return value
    return f"{value} ({signed(change.interval.low)} to {signed(change.interval.high)})"


def signed(share: float) -> str:
    """A difference of shares in whole per cent, with its sign: `+23`, `−5`, `0`."""
    whole = whole_percent(abs(share))
    return f"{'−' if share < 0 else '+'}{whole}" if whole else "0"
