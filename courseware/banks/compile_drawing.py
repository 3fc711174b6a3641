"""From what an exercise says of its drawing to the drawing: figures compiled, dimensions shown or asked for."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from courseware.banks.drawing_kind import DrawingKind
from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.banks.exercise import DrawingAsked
from courseware.banks.formulas import Formula, Kind
from courseware.banks.own_drawing import OWN, own_drawing
from courseware.banks.part import Part
from courseware.banks.reading import Path, Reading
from courseware.banks.vocabulary import Vocabulary
from courseware.text_files.did_you_mean import near


def bind_drawing(
    written: Any,
    reading: Reading,
    path: Path,
    words: Vocabulary,
    kinds: Mapping[str, Kind],
    parts: Sequence[Part],
) -> DrawingAsked | None:
    """The drawing that an exercise asks for, by its kind's name or in a map; None where it asks for none.

    `kinds` are the names its figures may go by, `parts` what its dimensions may ask for. Faults are kept in `reading`.
    """
    if written is None:
        return None
    named = {"kind": written} if isinstance(written, str) else dict(written)
    kind_name = named.pop("kind", None)
    if kind_name == OWN:
        return own_drawing(named, reading, path)
    kind = DRAWING_KINDS.get(kind_name) if isinstance(kind_name, str) else None
    if kind is None or not isinstance(kind_name, str):
        known = near(str(kind_name), [*DRAWING_KINDS, OWN], "expected one of")
        wrong = "the drawing has no `kind`" if kind_name is None else f"no drawing is of kind `{kind_name}`"
        reading.fault(path, wrong, known)
        return None
    shows, asks = named.pop("shows", []), named.pop("asks", {})
    for key in sorted(set(named) - set(kind.arguments)):
        known = near(key, [*kind.arguments, "shows", "asks"], "expected one of")
        reading.fault((*path, key), f"the drawing `{kind_name}` has no figure `{key}`", known)
    numbers = {number.name for part in parts for number in part.numbers}
    if isinstance(written, str):
        asks = _asks_by_name(kind_name, kind, numbers)
    _check_dimensions(kind_name, kind, shows, asks, numbers, reading, path)
    return DrawingAsked(
        kind=kind_name,
        figures=_figures(kind, named, reading, path, words, kinds),
        shows=tuple(shows) if isinstance(shows, list) else (),
        asks=asks if isinstance(asks, dict) else {},
    )


def _asks_by_name(kind_name: str, kind: DrawingKind, numbers: set[str]) -> dict[str, str]:
    asks: dict[str, str] = {}
    for dimension in kind.dimensions:
        for name in (dimension, f"{kind_name}_{dimension}"):
            if name in numbers:
                asks[dimension] = name
    return asks


def _check_dimensions(
    kind_name: str,
    kind: DrawingKind,
    shows: Any,
    asks: Any,
    numbers: set[str],
    reading: Reading,
    path: Path,
) -> None:
    listed = isinstance(shows, list) and isinstance(asks, dict)
    if not listed or not all(isinstance(name, str) for name in (*shows, *asks.values())):
        reading.fault(
            path,
            "`shows` or `asks` is not as it should be",
            "expected shows: [dimension], asks: {dimension: part}",
        )
        return
    known = list(kind.dimensions)
    for dimension in [*shows, *asks]:
        if dimension not in known:
            reading.fault(
                path,
                f"`{kind_name}` has no dimension `{dimension}`",
                near(str(dimension), known, "expected one of"),
            )
    for dimension in sorted(set(shows) & set(asks)):
        reading.fault(path, f"`{dimension}` is both shown and asked for", "expected one of the two")
    for part in asks.values():
        if part not in numbers:
            reading.fault(path, f"`{part}` is not a number part", near(str(part), sorted(numbers), "expected one of"))


def _figures(
    kind: DrawingKind,
    named: Mapping[str, Any],
    reading: Reading,
    path: Path,
    words: Vocabulary,
    kinds: Mapping[str, Kind],
) -> dict[str, Formula]:
    figures: dict[str, Formula] = {}
    for argument, limits in kind.arguments.items():
        want: Kind = "word" if isinstance(limits, frozenset) else "number"
        written = named.get(argument)
        if argument in named and not isinstance(written, str):
            reading.fault((*path, argument), f"`{argument}` is not a formula", "expected a formula")
        elif isinstance(written, str):
            text = f'"{written}"' if want == "word" and written in limits else written
            figures[argument] = reading.formula((*path, argument), text, words, kinds, (want,))
        elif kinds.get(argument) == want:
            figures[argument] = reading.formula(path, argument, words, kinds, (want,))
        elif argument not in kind.optional:
            reading.fault(
                path,
                f"the drawing needs `{argument}`",
                f"expected a given or part of that name, or `{argument}:` with a formula",
            )
    return figures
