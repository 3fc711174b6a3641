"""From the shape of a bank to its exercises: formulas compiled, names checked, marks added up."""

from __future__ import annotations

import keyword
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import prod
from typing import Any

from courseware.banks.compile_drawing import bind_drawing
from courseware.banks.compile_parts import bind_part
from courseware.banks.exercise import BRICK_LINES, Exercise, part_label
from courseware.banks.formulas import FormulaFault, Kind
from courseware.banks.givens import Given, is_value, read_given
from courseware.banks.part import Part
from courseware.banks.part_kinds import BANK_KINDS
from courseware.banks.reading import Reading
from courseware.banks.shapes import ExerciseShape, TopicShape
from courseware.banks.vocabulary import Vocabulary, vocabulary
from courseware.banks.wording import SITE_WORDS
from courseware.settings.settings import Settings
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault
from courseware.text_files.yaml_tree import Node, place, text_at
from courseware.trade import FORMATS, UK_METRIC, Format, TradeError

MOST_VARIANTS = 200_000
MOST_EXERCISES = 60
MOST_PARTS = 8
_MOST_GIVENS = 20
_LETTERS = 1000  # characters of a pose or setting


@dataclass(frozen=True, slots=True, kw_only=True)
class Topic:
    """What a topic's file holds, bound."""

    topic: str
    aim: str
    safety: tuple[str, ...]
    exercises: tuple[Exercise, ...]


def bind_topic(
    shape: TopicShape, node: Node, file: str, settings: Settings
) -> tuple[Topic, Sequence[tuple[tuple[str | int, ...], Fault]]]:
    """The topic's exercises, and every fault with the path where it stands."""
    reading = Reading(file=file, node=node, settings=settings)
    for key, text in (("topic", shape.topic), ("aim", shape.aim)):
        if not text.strip() or len(text) > 200:
            reading.fault((key,), f"`{key}` is empty or too long", "expected 1 to 200 characters")
    if len(shape.exercises) > MOST_EXERCISES:
        reading.fault(("exercises",), f"{len(shape.exercises)} exercises", f"at most {MOST_EXERCISES} to a topic")
    names: dict[str, int] = {}
    for index, exercise in enumerate(shape.exercises):
        path = ("exercises", index, "name")
        if exercise.name in names:
            first, _ = place(node, ("exercises", names[exercise.name], "name"))
            reading.fault(path, f"the exercise `{exercise.name}` stands on line {first} too", "expected each name once")
        names.setdefault(exercise.name, index)
    exercises = tuple(
        _bind_exercise(exercise, reading, ("exercises", index))
        for index, exercise in enumerate(shape.exercises[:MOST_EXERCISES])
    )
    topic = Topic(topic=shape.topic.strip(), aim=shape.aim.strip(), safety=tuple(shape.safety), exercises=exercises)
    return topic, reading.faults


def _bind_exercise(shape: ExerciseShape, reading: Reading, path: tuple[str | int, ...]) -> Exercise:
    if shape.level not in (1, 2, 3):
        reading.fault((*path, "level"), f"level {shape.level}", "expected 1, 2 or 3")
    brick = _format(shape.format, reading, (*path, "format"))
    words = replace(vocabulary(brick, reading.settings.arris_rule), labels=_labels(shape))
    givens = _givens(shape, reading, path, words)
    kinds: dict[str, Kind] = {given.name: given.kind for given in givens}
    asked = dict(kinds)
    parts: list[Part] = []
    if len(shape.parts) > MOST_PARTS:
        reading.fault((*path, "parts"), f"{len(shape.parts)} parts", f"at most {MOST_PARTS} to an exercise")
    for index, part in enumerate(shape.parts[:MOST_PARTS]):
        here = (*path, "parts", index)
        bound = bind_part(part, reading, here, words, asked, kinds)
        parts.append(bound)
        for name, kind, at in bound.names:
            _check_name(name, kinds, words, reading, (*here, *at))
            if kind:
                kinds[name] = kind
    return Exercise(
        name=shape.name,
        level=shape.level,
        givens=givens,
        where=None if shape.where is None else reading.formula((*path, "where"), shape.where, words, asked, ("truth",)),
        settings=tuple(
            reading.wording(_listed((*path, "setting"), i, shape.setting, reading), text, words, asked, _LETTERS)
            for i, text in enumerate(shape.setting)
        ),
        pose=reading.wording((*path, "pose"), shape.pose, words, asked, _LETTERS),
        drawing=bind_drawing(shape.drawing, reading, (*path, "drawing"), words, kinds, parts),
        format=brick,
        brick_line=_brick_line(shape.brick_line, reading, (*path, "brick_line")),
        safety=tuple(shape.safety),
        parts=tuple(parts),
        file=reading.file,
        line=place(reading.node, (*path, "name"))[0],
    )


def _labels(shape: ExerciseShape) -> dict[str, str]:
    """The label of each part and row by its name, without the exercise's number."""
    found: dict[str, str] = {}
    for index, part in enumerate(shape.parts[:MOST_PARTS]):
        found[part.name] = part_label(index)
        if kind := BANK_KINDS.get(part.kind):
            found |= {row: part_label(index, below) for below, row in enumerate(kind.rows(part))}
    return found


def _brick_line(said: str, reading: Reading, path: tuple[str | int, ...]) -> str:
    if said in BRICK_LINES:
        return said
    reading.fault(path, f"the brick's line cannot be `{said}`", near(said, list(BRICK_LINES), "expected one of"))
    return BRICK_LINES[0]


def _listed(path: tuple[str | int, ...], index: int, texts: Sequence[str], reading: Reading) -> tuple[str | int, ...]:
    """The path of one text, whether it stands alone or in a list."""
    return path if text_at(reading.node, path) is not None else (*path, index)


def _format(written: Any, reading: Reading, path: tuple[str | int, ...]) -> Format:
    sizes = ("name", "length", "width", "height", "perpend", "bed")
    if isinstance(written, str):
        if written in FORMATS:
            return FORMATS[written]
        reading.fault(path, f"no brick format is named `{written}`", near(written, list(FORMATS), "expected one of"))
        return UK_METRIC
    if missing := [key for key in sizes if not isinstance(written.get(key), str)]:
        reading.fault(path, f"the brick lacks {', '.join(missing)}", f"expected {', '.join(sizes)}")
        return UK_METRIC
    if strange := sorted(set(written) - set(sizes)):
        reading.fault(
            (*path, strange[0]),
            f"the key `{strange[0]}` is not known",
            near(strange[0], list(sizes), "expected"),
        )
    try:
        return Format(**{key: written[key] for key in sizes})
    except TradeError as impossible:
        reading.fault(path, f"no such brick: {impossible}", "expected sizes in mm above 0")
        return UK_METRIC


def _givens(
    shape: ExerciseShape, reading: Reading, path: tuple[str | int, ...], words: Vocabulary
) -> tuple[Given, ...]:
    givens: list[Given] = []
    for name, written in shape.given.items():
        here = (*path, "given", name)
        _check_name(name, {}, words, reading, here)
        try:
            if isinstance(written, str):
                givens.append(read_given(name, written, quoted=not reading.plain(here)))
            else:
                pairs = [(text, not reading.plain((*here, index))) for index, text in enumerate(written)]
                at = next((index for index, pair in enumerate(pairs) if not is_value(*pair)), None)
                here = here if at is None else (*here, at)
                givens.append(read_given(name, pairs))
        except FormulaFault as fault:
            reading.fault(here, fault.wrong, fault.expected)
            givens.append(Given(name=name, values=(1,)))
    if len(givens) > _MOST_GIVENS:
        reading.fault((*path, "given"), f"{len(givens)} givens", f"at most {_MOST_GIVENS} to an exercise")
    elif (size := prod(len(given.values) for given in givens)) > MOST_VARIANTS:
        reading.fault((*path, "given"), f"{size} variants", f"at most {MOST_VARIANTS}: narrow the ranges")
    return tuple(givens)


def _check_name(
    name: str, taken: Mapping[str, Kind], words: Vocabulary, reading: Reading, path: tuple[str | int, ...]
) -> None:
    hidden = name in words.constants or name in words.functions or name in SITE_WORDS or name == "joint"
    if hidden or keyword.iskeyword(name):
        reading.fault(path, f"the name `{name}` would hide one the tool uses", "expected another name")
    elif name in taken:
        reading.fault(path, f"the name `{name}` is used twice in this exercise", "expected each name once")
