"""The questions of a kind as plain data for the page: finished text to show, exact figures to judge by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice
from typing import cast

from courseware.banks import Exercise
from courseware.banks.part import Solved
from courseware.drawings.fitted import Sizes, on_phone, on_screen
from courseware.drawings.picture import Picture
from courseware.papers.part_kind import Entries
from courseware.papers.sheets import AskedPart, DrawingCall, KeyAnswer, SafetyNote
from courseware.practice.asked_places import asked_places
from courseware.practice.kinds import PracticeKind, Question
from courseware.practice.lean_svg import lean_svg
from courseware.practice.part_kind import PRACTICE_KINDS, Before, Data, own_label, without_blanks
from courseware.practice.rules import rule_of
from courseware.practice.said_drawing import all_said
from courseware.reports.words import plain


def kind_data(kind: PracticeKind) -> Data:
    """All of a kind: its variants, and what they share (lines of drawings, cautions), once."""
    lines: dict[str, int] = {}  # every line of every drawing, with its place in the list
    variants = [_variant(question, kind.exercise, lines) for question in kind.questions]
    notes = kind.questions[0].key.asked.safety
    return {"notes": [_note(note) for note in notes], "variants": variants, "lines": list(lines)}


def fewer_variants(data: Data, most: int) -> Data:
    """A kind with its first variants alone, as `kind_data` gives it of these."""
    variants = cast("list[Data]", data["variants"])[:most]
    lines = 1 + max((line for variant in variants for line in _lines_of(variant)), default=-1)  # as they were first met
    return data | {"variants": variants, "lines": cast("list[str]", data["lines"])[:lines]}


def kind_heading(kind: PracticeKind) -> Data:
    """What the page's index says of a kind, without how many variants it has."""
    title = plain(kind.exercise.name)
    rules = [rule.right for number in kind.exercise.numbers if (rule := rule_of(number))]
    return {
        "topic": kind.bank.topic,
        "exercise": kind.exercise.name,
        "title": title[:1].upper() + title[1:],
        "level": kind.exercise.level,
        "marks": kind.exercise.marks,
        "rule": rules[0] if rules else kind.exercise.name,
        "asks": bool(rules),
        "parts": [part.name for part in kind.exercise.parts],
    }


def _variant(question: Question, exercise: Exercise, lines: dict[str, int]) -> Data:
    asked = question.key.asked
    drawn = _layouts(asked.drawing)
    same = question.key.drawing == asked.drawing
    filled = drawn if same else _layouts(question.key.drawing)
    left = iter(question.issued.parts)
    parts = [
        _part(part, answers, solved, tuple(islice(left, len(answers))), question.before)
        for part, answers, solved in zip(asked.parts, question.key.answers, question.solved, strict=True)
    ]
    return without_blanks(
        {
            "given": dict(question.issued.given),
            "setting": asked.setting,
            "pose": asked.pose,
            "brick": asked.brick,
            "drawing": (drawing := _drawing(drawn, lines)),
            "filled": drawing if same else _drawing(filled, lines),
            "stands": _stands(drawn, filled, question.key.drawing, exercise),
            "parts": parts,
        }
    )


def _layouts(call: DrawingCall | None) -> dict[str, Picture]:
    """The drawing laid out for a wide screen and for a phone; one to draw in has its true size alone."""
    if call is None:
        return {}
    sizes = Sizes(call)
    return {"wide": on_screen(sizes)} | ({} if call.to_draw_in else {"narrow": on_phone(sizes)})


def _drawing(layouts: Mapping[str, Picture], lines: dict[str, int]) -> Data:
    """The places of the lines of each layout's SVG: drawings of a kind share many."""
    return {
        name: [lines.setdefault(line, len(lines)) for line in lean_svg(all_said(picture)).splitlines()]
        for name, picture in layouts.items()
    }


def _stands(
    drawn: Mapping[str, Picture], filled: Mapping[str, Picture], call: DrawingCall | None, exercise: Exercise
) -> Data:
    """Where in the wide layout the sizes that parts ask for stand."""
    if call is None or exercise.drawing is None:
        return {}
    return {**asked_places(drawn["wide"], filled["wide"], call.labels, exercise.drawing.asks)}


def _lines_of(variant: Data) -> Iterator[int]:
    for drawing in ("drawing", "filled"):
        for lines in cast("dict[str, list[int]]", variant.get(drawing, {})).values():
            yield from lines


def _note(note: SafetyNote) -> Data:
    return without_blanks({"title": note.title, "lines": list(note.lines), "source": note.source})


def _part(asked: AskedPart, answers: Sequence[KeyAnswer], solved: Solved, own: Entries, before: Before) -> Data:
    found: Data = {
        "name": solved.part.name,
        "label": own_label(asked.label),
        "kind": asked.kind,
        "ask": asked.ask,
        "marks": asked.marks,
        "note": asked.note,
    }
    return without_blanks(found | PRACTICE_KINDS[asked.kind].data(asked, answers, solved, own, before))
