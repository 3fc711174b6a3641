"""What may stand where in a bank: every key, function, drawing and format with what it is, as the code has them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import cast

from courseware.banks.drawing_kinds import DRAWING_KINDS
from courseware.banks.figures import write_out
from courseware.banks.shapes import (
    ExerciseShape,
    FigureShape,
    LineShape,
    NoteShape,
    PartShape,
    SlipShape,
    TopicShape,
)
from courseware.banks.topic_shape import topic_shape
from courseware.banks.vocabulary import vocabulary
from courseware.part_kinds.choice.bank import ChoiceShape
from courseware.part_kinds.order.bank import StepShape
from courseware.part_kinds.table.bank import RowShape
from courseware.text_files.shapes import Shape
from courseware.trade import FORMATS, PROJECTION_LIMITS, UK_METRIC


@dataclass(frozen=True, slots=True, kw_only=True)
class KeyWords:
    """A key of a bank's file, whether it is needed, and what it holds."""

    name: str
    needed: bool
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawingWords:
    """A kind of drawing: what it shows, its arguments as (name, limits, needed), and its dimensions."""

    name: str
    says: str
    arguments: tuple[tuple[str, str, bool], ...]
    dimensions: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class BankReference:
    """All of it, each in the order in which it is told."""

    keys: Mapping[str, tuple[KeyWords, ...]]  # by what they are keys of
    names: tuple[str, ...]  # in every formula
    functions: tuple[tuple[str, str], ...]  # as written, what each gives
    limits: tuple[str, ...]  # on a projection
    formats: tuple[str, ...]
    drawings: tuple[DrawingWords, ...]


@cache
def bank_reference() -> BankReference:
    """The reference of the format of banks."""
    words = vocabulary(UK_METRIC)
    return BankReference(
        keys={title: _keys(shape) for title, shape in _shapes().items()},
        names=tuple(words.constants),
        functions=tuple(
            (_written(name, [told for told, _ in one.parameters], one.needed, repeats=one.repeats), one.says)
            for name, one in sorted(words.functions.items())
        ),
        limits=tuple(PROJECTION_LIMITS),
        formats=tuple(FORMATS),
        drawings=tuple(
            DrawingWords(
                name=name,
                says=kind.says,
                arguments=tuple(
                    (argument, _limits(allowed), argument not in kind.optional)
                    for argument, allowed in kind.arguments.items()
                ),
                dimensions=tuple(kind.dimensions),
            )
            for name, kind in DRAWING_KINDS.items()
        ),
    )


def _shapes() -> dict[str, type[Shape]]:
    return {
        "A bank": TopicShape, "An exercise": ExerciseShape, "A part": _part_shape(), "A line of working": LineShape,
        "A route to accept": FigureShape, "A slip": SlipShape, "A choice": ChoiceShape, "A step": StepShape,
        "A row": RowShape, "A safety note (in `safety_notes.yaml`)": NoteShape,
    }  # fmt: skip


def _part_shape() -> type[PartShape]:
    """A part as the kinds there are make it: with the keys of each."""
    exercises = topic_shape().model_fields["exercises"].annotation
    parts = exercises.__args__[0].model_fields["parts"].annotation  # type: ignore[union-attr]  # a list of exercises
    return cast("type[PartShape]", parts.__args__[0])


def _keys(shape: type[Shape]) -> tuple[KeyWords, ...]:
    return tuple(
        KeyWords(name=field.alias or name, needed=field.is_required(), says=field.description or "")
        for name, field in shape.model_fields.items()
    )


def _written(name: str, parameters: list[str], needed: int, *, repeats: bool) -> str:
    """A function as it is called; what stands in square brackets may be left out."""
    shown = parameters[:needed] + [f"[{parameter}]" for parameter in parameters[needed:]]
    return f"{name}({', '.join(shown)}{', …' if repeats else ''})"


def _limits(allowed: object) -> str:
    if isinstance(allowed, frozenset):
        return " or ".join(sorted(allowed))
    return " to ".join(map(write_out, cast("tuple[int, int]", allowed)))
