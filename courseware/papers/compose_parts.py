"""The parts of a sheet as finished text: as the learner meets them, and as the key answers them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from courseware.banks.exercise import ChoicePart, DrawnPart, NumberPart, OrderPart, Route, TablePart, WorkingLine
from courseware.banks.figures import DoesNotWriteOut, Figure, half_up, write_out
from courseware.banks.formulas import Value
from courseware.banks.solve import Solved, SolvedChoice, SolvedNumber, SolvedPlain, SolvedTable, shown_lines
from courseware.papers.deal import LETTERS
from courseware.papers.sheets import AskedPart, AskedRow, KeyAnswer, KeyLine, KeySlip
from courseware.papers.sitting import IssuedPart
from courseware.papers.sitting_file import SittingFaulty
from courseware.trade import Format
from courseware.words import count

Scope = Mapping[str, Value]
Site = Mapping[str, str]

_TICKS = {1: "Tick one.", 2: "Tick every one that is right."}
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


def asked_part(solved: Solved, own: tuple[IssuedPart, ...], scope: Scope, site: Site) -> AskedPart:
    """A part as the learner meets it."""
    part = solved.part
    label = own[0].label.partition("(")[0]
    asked = AskedPart(label=label, kind="number", ask=part.ask.render(scope, site), marks=part.marks)
    match part:
        case NumberPart():
            return _replace(asked, unit=part.unit, note=_note(part))
        case TablePart():
            return _replace(asked, kind="table", rows=_rows(part, own, scope, site))
        case ChoicePart():
            says = [part.choices[index].say.render(scope, site) for index in own[0].shown]
            note = _TICKS[2 if part.several else 1]
            return _replace(asked, kind="choice", note=note, options=tuple(zip(LETTERS, says, strict=False)))
        case OrderPart():
            says = [part.steps[index][1].render(scope, site) for index in own[0].shown]
            note = "Write the letters in order, first to last."
            return _replace(asked, kind="order", note=note, options=tuple(zip(LETTERS, says, strict=False)))
        case DrawnPart():
            return _replace(
                asked, kind="drawn", size=part.size, lines=part.lines, note="in a few words" if part.lines else ""
            )


def key_answers(solved: Solved, own: tuple[IssuedPart, ...], scope: Scope, site: Site) -> tuple[KeyAnswer, ...]:
    """The key to a part, a row of a table at a time. Raises `SittingFaulty` where the sitting says otherwise."""
    match solved:
        case SolvedNumber():
            return (_key_number(solved, own[0], scope, site),)
        case SolvedTable(rows=rows):
            return tuple(_key_number(row, entry, scope, site) for row, entry in zip(rows, own, strict=True))
        case SolvedChoice():
            return (_key_choice(solved, own[0], scope, site),)
        case SolvedPlain(part=OrderPart()):
            pairs = tuple(f"{earlier} before {later}" for earlier, later in own[0].before)
            letters = own[0].answer.split(",")
            several = any(pair not in own[0].before for pair in pairwise(letters))
            keeps = ("Right in any sequence that keeps: " if several else "Kept by: ") + "; ".join(pairs) + "."
            notes = (keeps, _by_pairs(solved.part.marks, len(pairs)))
            return (KeyAnswer(label=own[0].label, answer=", ".join(letters), notes=notes, open_order=several),)
        case SolvedPlain(part=DrawnPart() as drawn):
            each = drawn.marks // len(drawn.points)
            points = tuple(f"{point.render(scope, site)} [{each}]" for point in drawn.points)
            return (
                KeyAnswer(label=own[0].label, answer="Marked by eye against the points", notes=points, by_eye=True),
            )
    raise TypeError(solved)


def _by_pairs(marks: int, pairs: int) -> str:
    """What so many pairs kept earn, as `marking.lettered` counts them: parts of a mark are cut off."""
    fewest = [(mark, -(-mark * pairs // marks)) for mark in range(1, marks + 1)]
    return "Marks for pairs kept: " + ", ".join(f"{mark} for {kept}" for mark, kept in fewest) + "."


def _replace(asked: AskedPart, **changes: object) -> AskedPart:
    return replace(asked, **changes)  # type: ignore[arg-type]  # the callers above name AskedPart's own fields


def _note(part: NumberPart) -> str:
    """How the answer is to be written; and where the paper gives it, what is to be shown instead."""
    notes = (_rounding(part), "the figure is given: show how it comes" if part.told else "")
    return "; ".join(note for note in notes if note)


def _rounding(part: NumberPart) -> str:
    if part.places is None:
        return ""
    if part.places == 0:
        return "to the nearest whole number"
    return f"to {count(part.places, 'decimal place')}"


def _rows(part: TablePart, own: tuple[IssuedPart, ...], scope: Scope, site: Site) -> tuple[AskedRow, ...]:
    return tuple(
        AskedRow(
            label=entry.label,
            say=row.ask.render(scope, site),
            unit=row.unit,
            marks=row.marks,
            note=_note(row),
        )
        for row, entry in zip(part.rows, own, strict=True)
    )


def _key_number(solved: SolvedNumber, own: IssuedPart, scope: Scope, site: Site) -> KeyAnswer:
    part = solved.part
    if Fraction(own.answer) != solved.answer:
        raise SittingFaulty(
            f"part {own.label}: the sitting says {own.answer}, this program finds {shown_figure(part, solved.answer)}; "
            "it was issued by another version of the program or has been changed"
        )
    return KeyAnswer(
        label=own.label,
        answer=_with_unit(shown_figure(part, solved.answer), part.unit),
        within=f"± {_with_unit(write_out(solved.within), part.unit)}" if solved.within else "",
        accepts=_routes(part, solved.accept, part.accept, scope, site),
        working=_working(part.working, shown_lines(solved), part.unit, part.marks, scope, site),
        slips=_routes(part, solved.slips, part.slips, scope, site),
    )


def _routes(
    part: NumberPart, figures: tuple[Figure, ...], routes: tuple[Route, ...], scope: Scope, site: Site
) -> tuple[KeySlip, ...]:
    return tuple(
        KeySlip(
            figure=_with_unit(_near(part, figure), part.unit), says=route.says.render(scope, site), earns=route.earns
        )
        for figure, route in zip(figures, routes, strict=True)
    )


def _near(part: NumberPart, figure: Figure) -> str:
    """A slip's figure, which need not write out: then to two places, as `about 4.23`."""
    try:
        return shown_figure(part, figure)
    except DoesNotWriteOut:
        return f"about {write_out(half_up(figure, 2))}"


def _working(
    lines: tuple[WorkingLine, ...], values: tuple[Value | None, ...], unit: str, marks: int, scope: Scope, site: Site
) -> tuple[KeyLine, ...]:
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
    return _with_unit(write_out(value, fraction=own == "in"), own)


def _key_choice(solved: SolvedChoice, own: IssuedPart, scope: Scope, site: Site) -> KeyAnswer:
    part = solved.part
    letters = [LETTERS[place] for place, index in enumerate(own.shown) if solved.right[index]]
    if ",".join(letters) != own.answer:
        raise SittingFaulty(f"part {own.label}: the sitting says {own.answer}, this program finds {','.join(letters)}")
    notes = [
        f"{LETTERS[place]}: {says.render(scope, site)}"
        for place, index in enumerate(own.shown)
        if not solved.right[index] and (says := part.choices[index].says)
    ]
    return KeyAnswer(
        label=own.label,
        answer=" and ".join(letters),
        working=_working(part.working, solved.working, "", part.marks, scope, site),
        notes=tuple(notes),
    )


def _with_unit(figure: str, unit: str) -> str:
    return f"{figure} {unit}" if unit else figure
