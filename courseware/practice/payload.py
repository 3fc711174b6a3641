"""The questions of a kind as plain data for the page: finished text to show, exact figures to judge by."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from courseware.banks.exercise import DrawnPart, OrderPart, Route, WorkingLine
from courseware.banks.figures import Figure, exact_text
from courseware.banks.formulas import Value
from courseware.banks.solve import Solved, SolvedChoice, SolvedNumber, SolvedPlain, SolvedTable, shown_lines
from courseware.drawings import draw, to_svg
from courseware.papers.sheets import AskedPart, AskedRow, DrawingCall, KeyAnswer, KeySlip, SafetyNote
from courseware.papers.sitting import IssuedPart
from courseware.practice.kinds import PracticeKind, Question
from courseware.practice.rules import rule_of
from courseware.reports.words import plain

Data = dict[str, object]


def kind_data(kind: PracticeKind) -> Data:
    """All of a kind: its variants, and what they share (lines of drawings, cautions), once."""
    lines: dict[str, int] = {}  # every line of every drawing, with its place in the list
    variants = [_variant(question, lines) for question in kind.questions]
    notes = kind.questions[0].key.asked.safety
    return {"notes": [_note(note) for note in notes], "variants": variants, "lines": list(lines)}


def kind_heading(kind: PracticeKind) -> Data:
    """What the page's index says of a kind, without how many variants it has."""
    title = plain(kind.exercise.name)
    rules = [rule.right for number in kind.exercise.numbers if (rule := rule_of(number))]
    return {
        "topic": kind.bank.topic,
        "exercise": kind.exercise.name,
        "title": title[:1].upper() + title[1:],
        "level": kind.exercise.level,
        "rule": rules[0] if rules else kind.exercise.name,
        "asks": bool(rules),
        "parts": [part.name for part in kind.exercise.parts],
    }


def _variant(question: Question, lines: dict[str, int]) -> Data:
    asked = question.key.asked
    entries = iter(question.issued.parts)
    parts = [
        _part(part, answers, solved, entries, question.before)
        for part, answers, solved in zip(asked.parts, question.key.answers, question.solved, strict=True)
    ]
    return _without_blanks(
        {
            "given": dict(question.issued.given),
            "setting": asked.setting,
            "pose": asked.pose,
            "brick": asked.brick,
            "drawing": _drawing(asked.drawing, lines),
            "filled": _drawing(question.key.drawing, lines),
            "parts": parts,
        }
    )


def _drawing(call: DrawingCall | None, lines: dict[str, int]) -> list[int]:
    """The places of the lines of its SVG: drawings of a kind have most of them in common."""
    svg = to_svg(draw(call)).splitlines() if call else []
    return [lines.setdefault(line, len(lines)) for line in svg]


def _note(note: SafetyNote) -> Data:
    return _without_blanks({"title": note.title, "lines": list(note.lines), "source": note.source})


def _part(
    asked: AskedPart,
    answers: Sequence[KeyAnswer],
    solved: Solved,
    entries: Iterator[IssuedPart],
    before: Mapping[str, Figure],
) -> Data:
    found: Data = {
        "name": solved.part.name,
        "label": _own_label(asked.label),
        "kind": asked.kind,
        "ask": asked.ask,
        "marks": asked.marks,
        "note": asked.note,
    }
    match solved:
        case SolvedNumber():
            next(entries)
            found |= _number(solved, answers[0], before)
        case SolvedTable(rows=rows):
            asked_rows = zip(asked.rows, answers, rows, strict=True)
            found["rows"] = [_row(row, answer, own, before) for row, answer, own in asked_rows]
            for _ in rows:
                next(entries)
        case SolvedChoice():
            found |= _choice(solved, asked, answers[0], next(entries))
        case SolvedPlain(part=OrderPart()):
            found |= _order(asked, answers[0], next(entries))
        case SolvedPlain(part=DrawnPart()):
            next(entries)
            found["lines"] = asked.lines
            found["points"] = [note.rpartition(" [")[0] for note in answers[0].notes]
    return _without_blanks(found)


def _row(asked: AskedRow, answer: KeyAnswer, solved: SolvedNumber, before: Mapping[str, Figure]) -> Data:
    found: Data = {"name": solved.part.name, "label": _own_label(asked.label), "kind": "number", "ask": asked.say}
    return _without_blanks(found | {"marks": asked.marks, "note": asked.note} | _number(solved, answer, before))


def _number(solved: SolvedNumber, answer: KeyAnswer, before: Mapping[str, Figure]) -> Data:
    part = solved.part
    rule = rule_of(part)
    found: Data = {
        "answer": answer.answer,
        "right": exact_text(solved.answer),
        "exact": exact_text(solved.exact) if solved.exact != solved.answer else "",
        "before": exact_text(before[part.name]) if part.name in before else "",
        "unit": part.unit,
        "within": exact_text(solved.within) if solved.within else "",
        "band": answer.within,
        "working": _working(part.working, shown_lines(solved), answer, part.unit),
        "slips": _routes(part.slips, solved.slips, answer.slips),
        "accepts": _routes(part.accept, solved.accept, answer.accepts),
        "rule": [rule.right, *rule.others] if rule else [],
    }
    return found | ({} if part.places is None else {"places": part.places})


def _working(lines: Sequence[WorkingLine], values: Sequence[Value | None], answer: KeyAnswer, unit: str) -> list[Data]:
    """Each line with its exact figure, where it has one: so that a learner can fill it in."""
    found: list[Data] = []
    for line, value, said in zip(lines, values, answer.working, strict=True):
        one: Data = {"say": said.say, "figure": said.figure}
        if value is not None and not isinstance(value, bool | str):
            one |= {"right": exact_text(value), "unit": unit if line.unit is None else line.unit}
        found.append(_without_blanks(one))
    return found


def _routes(routes: Sequence[Route], figures: Sequence[Figure], said: Sequence[KeySlip]) -> list[Data]:
    return [
        {"right": exact_text(figure), "says": slip.says} for _, figure, slip in zip(routes, figures, said, strict=True)
    ]


def _choice(solved: SolvedChoice, asked: AskedPart, answer: KeyAnswer, own: IssuedPart) -> Data:
    wrong = dict(note.split(": ", 1) for note in answer.notes)
    return {
        "options": [list(option) for option in asked.options],
        "right": own.answer,
        "several": solved.part.several,
        "wrong": wrong,
        "working": _working(solved.part.working, solved.working, answer, ""),
    }


def _order(asked: AskedPart, answer: KeyAnswer, own: IssuedPart) -> Data:
    return {
        "options": [list(option) for option in asked.options],
        "right": own.answer,
        "before": [list(pair) for pair in own.before],
        "open": answer.open_order,
    }


def _own_label(label: str) -> str:
    """`a` of `1a`, `ii` of `1a(ii)`: on the page an exercise stands alone."""
    row = label.partition("(")[2].removesuffix(")")
    return row or label[1:]


def _without_blanks(data: Data) -> Data:
    """Leaves out what says nothing: '' , [] , {} and False."""
    return {name: value for name, value in data.items() if value is not False and value not in ("", [], {})}
