"""The shape of a YAML file: keys checked, everything faulty told at its place, and the rest read on."""

from __future__ import annotations

from pydantic import Field

from courseware.text_files.shapes import Shape, Whole, Yes, shaped
from courseware.text_files.yaml_text import read_yaml


class WallShape(Shape):
    """A wall."""

    bricks: Whole = Field(description="its length in bricks")
    solid: Yes = Field(False, description="true when it is solid")


class YardShape(Shape):
    """A yard with walls."""

    name: str = Field(description="its name")
    walls: list[WallShape] = Field([], description="a list of walls", min_length=1)


STAND_IN = {"name": "x", "bricks": "1", "walls": [{"bricks": "1"}]}


def read(text: str) -> tuple[YardShape | None, list[str]]:
    shape, faults, _ = shaped(YardShape, read_yaml(text.encode(), "yard.yaml"), "yard.yaml", STAND_IN)
    return shape, [str(fault) for fault in faults]


def test_a_sound_file_has_its_shape_and_no_fault() -> None:
    shape, faults = read("name: Yard\nwalls: [{bricks: 8, solid: true}]\n")
    assert shape == YardShape(name="Yard", walls=[WallShape.model_validate({"bricks": "8", "solid": "true"})])
    assert faults == []


def test_every_fault_is_told_at_its_line_and_column_with_what_was_expected() -> None:
    text = "walls:\n  - {bricks: eight}\n  - {solid: perhaps, bricks: 8}\n  - text\n  - {brick: 8}\n"
    _, faults = read(text)
    assert sorted(faults) == [
        "yard.yaml:1:1: the key `name` is missing; expected its name",
        "yard.yaml:2:14: `bricks` is wrong: it is not a plain whole number; expected its length in bricks",
        "yard.yaml:3:13: `solid` is wrong: it is neither true nor false; expected true when it is solid",
        "yard.yaml:4:5: `walls` is `text`; expected a list of walls",
        "yard.yaml:5:6: the key `brick` is not known; did you mean `bricks`? expected one of bricks, solid",
    ]


def test_what_is_repaired_is_read_on_with_something_harmless() -> None:
    shape, faults = read("name: [a]\nwalls: [{bricks: 8}, wall]\n")
    assert len(faults) == 2
    assert shape is not None
    assert (shape.name, [wall.bricks for wall in shape.walls]) == ("x", [8, 1])


def test_very_many_faults_are_counted_rather_than_told() -> None:
    shape, faults = read("name: a\nwalls:\n" + "  - {bricks: x}\n" * 60)
    assert shape is None
    assert len(faults) == 51
    assert faults[-1] == "yard.yaml:53:14: 10 more faults from here on; mend these first"
