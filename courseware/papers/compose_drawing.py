"""The drawing of an exercise for one variant: its figures, what stands at its dimensions, and all of it in words."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction

from courseware.banks.drawing_kind import DrawingKind
from courseware.banks.drawing_kinds import drawn_figures, kind_of
from courseware.banks.exercise import Exercise
from courseware.banks.figures import write_out
from courseware.banks.formulas import Value
from courseware.papers.compose_parts import shown_figure
from courseware.papers.sheets import DrawingCall


def _said(
    kind: DrawingKind, what: str, labels: Mapping[str, str | None], apart: Collection[str], *, blank: bool
) -> str:
    """A drawing in words, with the sizes that it shows: who cannot see it has the same figures.

    Sizes in mm stand together, those `apart` have their unit with them.
    """
    shown = {
        name: text if kind.units.get(name) == name else f"{name.replace('_', ' ')} {text}"  # not `bricks 2 bricks`
        for name, text in labels.items()
        if text is not None
    }
    in_mm = ", ".join(text for name, text in shown.items() if name not in apart)
    others = ", ".join(text for name, text in shown.items() if name in apart)
    return f"Drawing: {what}." + (f" Sizes in mm: {in_mm}." if in_mm else "") + (
        f" It says: {others}." if others else ""
    ) + (" Sizes asked for are left blank." if blank else "")  # fmt: skip


def drawing_call(exercise: Exercise, scope: Mapping[str, Value], *, filled: bool) -> DrawingCall | None:
    """The drawing of a variant, its sizes asked for blank or `filled` in; None where the exercise has none."""
    asked = exercise.drawing
    if asked is None:
        return None
    kind = kind_of(asked)
    figures = drawn_figures(asked, scope)
    labels: dict[str, str | None] = {}
    apart = set(kind.units)
    for dimension, size in kind.dimensions.items():
        if dimension in asked.shows:
            labels[dimension] = kind.labelled(dimension, write_out(size(figures, exercise.format)))
        elif dimension in asked.asks:
            number = next(n for n in exercise.numbers if n.name == asked.asks[dimension])
            answer = shown_figure(number, scope[number.name])
            text = kind.labelled(dimension, answer)
            if number.unit not in ("mm", "") and dimension not in apart:  # a length in metres or inches
                apart.add(dimension)
                text = f"{answer} {number.unit}"
            labels[dimension] = text if filled else None
    return DrawingCall(
        kind=asked.kind,
        figures={name: figure if isinstance(figure, str) else Fraction(figure) for name, figure in figures.items()},
        labels=labels,
        format=exercise.format,
        alt=_said(kind, kind.in_words(figures), labels, apart, blank=bool(asked.asks) and not filled),
        own=asked.own,
        to_draw_in=kind.to_draw_in,
    )
