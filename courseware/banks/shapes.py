"""The bank format, key by key: what may stand where, before any formula is read.

Every scalar arrives as the text that stands in the file; the descriptions are printed when a key is missing or
holds the wrong thing, and in the manual's reference of the format.
"""

from __future__ import annotations

from typing import Annotated, Any

from pydantic import BeforeValidator, Field, StringConstraints
from pydantic_core import PydanticCustomError

from courseware.text_files.shapes import Shape, Whole

_Named = StringConstraints(pattern=r"\A[a-z][a-z0-9_]{0,39}\z")


def _text_or_texts(value: Any) -> Any:
    if isinstance(value, str) or (isinstance(value, list) and all(isinstance(item, str) for item in value)):
        return [value] if isinstance(value, str) else value
    raise PydanticCustomError("plain", "{wrong}", {"wrong": "it is neither text nor a list of texts"})


def _text_or_map(value: Any) -> Any:
    if isinstance(value, str | dict):
        return value
    raise PydanticCustomError("plain", "{wrong}", {"wrong": "it is neither a name nor a map"})


def _text_or_list(value: Any) -> Any:
    if isinstance(value, str) or (isinstance(value, list) and all(isinstance(item, str) for item in value)):
        return value
    raise PydanticCustomError("plain", "{wrong}", {"wrong": "it is neither a range nor a list of values"})


Name = Annotated[str, _Named]
Texts = Annotated[list[str], BeforeValidator(_text_or_texts)]


class LineShape(Shape):
    """A line of working."""

    say: str = Field(description="the words of this line")
    value: str | None = Field(None, description="a formula: the figure this line comes to")
    unit: str | None = Field(None, description="the unit printed after the figure (the part's own unless given)")
    earns: str | None = Field(None, description="method or accuracy: the mark this line earns")


class FigureShape(Shape):
    """An accepted route."""

    value: str = Field(description="a formula: the figure it gives")
    says: str = Field(description="its name in trade words")
    earns: Whole | None = Field(None, description="the marks it earns")


Misconception = Annotated[
    str | None,
    Field(
        description="what went wrong in a few words, such as `the beds were left out`: slips of the same words count "
        "as one in the class picture"
    ),
]


class SlipShape(FigureShape):
    """A slip."""

    misconception: Misconception = None


ApartFrom = Annotated[
    list[str],
    Field([], description="earlier parts that this one does not lean on, though its working shows their figure"),
]


class PartShape(Shape):
    """A part of an exercise, of any kind; the other keys are those of its kind."""

    name: Name = Field(description="a short name: small letters, figures, underscores")
    kind: str = Field("number", description="the kind of part")
    ask: str = Field(description="the question")
    marks: Whole | None = Field(None, description="whole marks for the part (not for a table: its rows have theirs)")


class ExerciseShape(Shape):
    """One exercise."""

    name: Annotated[str, StringConstraints(pattern=r"\A[a-z][a-z0-9-]{0,59}\z")] = Field(
        description="a short name: small letters, figures, hyphens"
    )
    level: Whole = Field(description="1, 2 or 3")
    given: dict[Name, Annotated[Any, BeforeValidator(_text_or_list)]] = Field(
        description="names with their values, as {bricks: 3 to 9}"
    )
    where: str | None = Field(None, description="a truth that every variant must meet")
    setting: Texts = Field([], description="a text, or a list of which one is drawn")
    pose: str = Field(description="the text that gives the figures")
    drawing: Annotated[Any, BeforeValidator(_text_or_map)] = Field(
        None, description="a kind of drawing, or a map with kind, its figures, shows and asks; kind own: file and says"
    )
    format: Annotated[Any, BeforeValidator(_text_or_map)] = Field(
        "UK_METRIC", description="a brick format by name, or a map of its sizes"
    )
    brick_line: str = Field(
        "all", description="what the line of the brick says: all, sizes (joints left out), or none for no line"
    )
    safety: list[str] = Field([], description="a list of safety notes by name")
    parts: list[PartShape] = Field(description="a list of parts: name, ask, answer, marks, working", min_length=1)


class TopicShape(Shape):
    """A bank: one topic."""

    topic: str = Field(description="the topic's title")
    aim: str = Field(description="what the learner will be able to do, in one line")
    safety: list[str] = Field([], description="a list of safety notes by name")
    exercises: list[ExerciseShape] = Field(description="a list of exercises", min_length=1)
    drawings: dict[str, str] = Field({}, description="the SVGs of your own by file name, unless they stand beside it")


class NoteShape(Shape):
    """A safety note."""

    name: Name = Field(description="the name that banks use: small letters, figures, underscores")
    title: str = Field(description="a short title")
    lines: list[str] = Field(description="a list of short lines", min_length=1)
    source: str | None = Field(None, description="whose figure or rule it is")


class SafetyShape(Shape):
    """The file of safety notes."""

    safety_notes: list[NoteShape] = Field(description="a list of notes: name, title, lines, source", min_length=1)
