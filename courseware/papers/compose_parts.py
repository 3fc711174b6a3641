"""What the sheets say of any part as finished text: the line of the brick, figures, the lines of a working."""

from __future__ import annotations

from fractions import Fraction

from courseware.banks.figures import write_out
from courseware.banks.formulas import Value
from courseware.banks.number_part import NumberPart
from courseware.banks.part import WorkingLine
from courseware.papers.part_kind import Scope, Site
from courseware.papers.sheets import KeyLine
from courseware.trade import Format
from courseware.words import of_one

_INCH = Fraction("25.4")


def brick_line(brick: Format, says: str = "all") -> str:
    """`UK metric bricks 215 × 102.5 × 65 mm, 10 mm joints`; in inches where the mm do not write out shortly.

    `says` is one of `BRICK_LINES`: "sizes" leaves the joints out, "none" gives no text.
    """
    if says == "none":
        return ""
    sizes = (brick.length, brick.width, brick.height)
    if all((size * 2).denominator == 1 for size in sizes):
        unit, said = "mm", [write_out(size) for size in sizes]
        joints = [write_out(joint) for joint in (brick.perpend, brick.bed)]
    else:
        unit, said = "in", [write_out(size / _INCH, fraction=True) for size in sizes]
        joints = [write_out(joint / _INCH, fraction=True) for joint in (brick.perpend, brick.bed)]
    bricks = f"{brick.name} bricks {' × '.join(said)} {unit}"
    if says == "sizes":
        return bricks
    same = brick.perpend == brick.bed
    joint = f"{joints[0]} {unit} joints" if same else f"{joints[0]} {unit} perpends, {joints[1]} {unit} beds"
    return f"{bricks}, {joint}"


def shown_figure(part: NumberPart, value: Value) -> str:
    """An answer as this part asks for it to be written, without its unit."""
    if isinstance(value, str):
        return value
    return write_out(value, part.places or None, fraction=part.unit == "in")


def key_lines(
    lines: tuple[WorkingLine, ...], values: tuple[Value | None, ...], unit: str, marks: int, scope: Scope, site: Site
) -> tuple[KeyLine, ...]:
    """The lines of a working with what they come to in a variant, and the marks they earn of the part's `marks`."""
    earning = any(line.earns for line in lines)
    found: list[KeyLine] = []
    for line, value in zip(lines, values, strict=True):
        earns = ""
        if line.earns:
            earns = f"{line.earns[0].upper()}1"  # a mark a line
        elif not earning and line is lines[-1]:
            earns = f"A{marks}"
        found.append(KeyLine(say=line.say.render(scope, site), figure=_line_figure(value, line, unit), earns=earns))
    return tuple(found)


def _line_figure(value: Value | None, line: WorkingLine, unit: str) -> str:
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        says_more = any(character.isdigit() for character in value)  # a bank's own word for a choice says nothing
        return value if says_more else ""
    own = unit if line.unit is None else line.unit
    return with_unit(write_out(value, fraction=own == "in"), own)


def with_unit(figure: str, unit: str) -> str:
    """A figure and its unit, where it has one: `1 brick`, `2 bricks`, `910 mm`."""
    said = of_one(unit) if figure in {"1", "−1", "-1"} else unit
    return f"{figure} {said}" if unit else figure
