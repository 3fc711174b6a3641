"""Where no line may break: between a figure and its unit, and within a short sum."""

from __future__ import annotations

import re

_FAST = "\u00a0"  # a space at which no line breaks
_FIGURE = r"\d[\d.]*[⅓⅔⅙⅚⅛⅜⅝⅞¼¾½]?"
_SUM = re.compile(rf"(?<![\w.]){_FIGURE}(?: [×÷+−] {_FIGURE})+")
_SIGN = re.compile(r"([×÷+−]) ")
_UNIT = re.compile(r"(?<=[\d⅓⅔⅙⅚⅛⅜⅝⅞¼¾½]) (?=(?:mg/m³|m/s²|mm|km|kg|dB\(A\)|in|ft|m|%|°)[²³]?(?!\w))")


def kept_together(text: str) -> str:
    """The text with spaces at which no line breaks: `910 mm`, `19 × 75`; a longer sum may break before a sign.

    >>> kept_together("Joints are 10 mm: 19 × 75").replace(_FAST, "_")
    'Joints are 10_mm: 19_×_75'
    >>> kept_together("Bricks 215 × 102.5 × 65 mm").replace(_FAST, "_")
    'Bricks 215 ×_102.5 ×_65_mm'
    """
    return _UNIT.sub(_FAST, _SUM.sub(_kept_sum, text)) if " " in text else text


def _kept_sum(found: re.Match[str]) -> str:
    signs = len(_SIGN.findall(found[0]))
    return found[0].replace(" ", _FAST) if signs == 1 else _SIGN.sub(rf"\1{_FAST}", found[0])
