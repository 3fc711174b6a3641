"""From the shape of a part to the part: its formulas compiled, its kind's own keys checked, its marks added up."""

from __future__ import annotations

import graphlib
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

from courseware.banks.exercise import (
    SKETCH_SIZE,
    SQUARE,
    Choice,
    ChoicePart,
    DrawnPart,
    NumberPart,
    OrderPart,
    Part,
    Route,
    TablePart,
    WorkingLine,
)
from courseware.banks.formulas import Formula, FormulaFault, Kind, compile_formula
from courseware.banks.shapes import ChoiceShape, FigureShape, LineShape, PartShape, RowShape
from courseware.banks.vocabulary import Vocabulary
from courseware.banks.wording import SITE_WORDS, Wording, label_of, read_wording
from courseware.settings.settings import Settings
from courseware.settings.upright_joint import with_own_word
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault, harmless
from courseware.text_files.yaml_text import Node, place, text_at

Path = tuple[str | int, ...]
_PLACEHOLDER: Mapping[Kind, str] = {"number": "0", "truth": "True", "word": "''"}
_MOST_MARKS = 20
_ASK, _SAY = 500, 300  # characters
_SIZE = re.compile(r"(?P<wide>[0-9]{1,4}) by (?P<high>[0-9]{1,4}) (?P<unit>mm|squares)", re.ASCII)
_HIGHEST_SKETCH = 200  # mm
_FEW_LINES, _MOST_LINES = 3, 12  # to write on

# What each kind of part holds besides name, kind, ask and marks.
_KEYS: Mapping[str, tuple[str, ...]] = {
    "number": ("answer", "unit", "round", "within", "accept", "working", "slips", "told", "fixed", "apart_from"),
    "choice": ("answer", "several", "choices", "working", "apart_from"),
    "order": ("steps", "before"),
    "table": ("rows",),
    "drawn": ("points", "grid", "adds"),
    "words": ("points", "lines"),
}
_NEEDED: Mapping[str, tuple[str, ...]] = {
    "number": ("answer", "marks", "working"),
    "choice": ("choices", "marks"),
    "order": ("steps", "before", "marks"),
    "table": ("rows",),
    "drawn": ("points", "marks"),
    "words": ("points", "marks"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """A bank while it is read: faults are gathered, and a placeholder stands in for what is faulty."""

    file: str
    node: Node
    settings: Settings
    faults: list[tuple[Path, Fault]] = field(default_factory=list)

    def fault(self, path: Path, wrong: str, expected: str) -> None:
        line, column = place(self.node, path)
        self.faults.append((path, Fault(self.file, line, column, wrong, expected)))

    def plain(self, path: Path) -> bool:
        """Whether the text at `path` stands without quotes."""
        text = text_at(self.node, path)
        return text is not None and text.plain

    def formula(
        self,
        path: Path,
        text: str,
        words: Vocabulary,
        kinds: Mapping[str, Kind],
        wants: Sequence[Kind] = ("number",),
    ) -> Formula:
        """The formula at `path`; where it is faulty the fault is kept and a placeholder returned."""
        try:
            formula = compile_formula(text, kinds, words.constants, words.functions)
            if formula.kind in wants:
                return formula
            self.fault(path, f"`{formula.text[:60]}` is a {formula.kind}", f"expected a {' or a '.join(wants)}")
        except FormulaFault as fault:
            self.fault(path, fault.wrong, fault.expected)
        return compile_formula(_PLACEHOLDER[wants[0]], {}, {}, {})

    def wording(self, path: Path, text: str, words: Vocabulary, kinds: Mapping[str, Kind], most: int) -> Wording:
        """The wording at `path`, likewise."""
        try:
            if not text.strip():
                raise FormulaFault("the text is empty", "expected words")
            read = read_wording(
                text.strip(),
                lambda inside: (
                    label_of(inside, words.labels) or compile_formula(inside, kinds, words.constants, words.functions)
                ),
                most,
                {*kinds, *words.constants, *SITE_WORDS},
            )
            return read.retold(lambda plain: with_own_word(plain, self.settings.upright_joint))
        except FormulaFault as fault:
            self.fault(path, fault.wrong, fault.expected)
            return Wording(())


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scope:
    """Where a part is read: `asked` is what the learner has been told, `kinds` also the earlier parts."""

    reading: Reading
    words: Vocabulary
    asked: Mapping[str, Kind]
    kinds: Mapping[str, Kind]

    def formula(self, path: Path, text: str, *wants: Kind) -> Formula:
        return self.reading.formula(path, text, self.words, self.kinds, wants or ("number",))

    def told(self, path: Path, text: str, most: int = _SAY) -> Wording:
        """Wording the learner reads: earlier answers cannot stand in it."""
        return self.reading.wording(path, text, self.words, self.asked, most)

    def keyed(self, path: Path, text: str) -> Wording:
        """Wording that stands on the key alone."""
        return self.reading.wording(path, text, self.words, self.kinds, _SAY)


def bind_part(
    shape: PartShape,
    reading: Reading,
    path: Path,
    words: Vocabulary,
    asked: Mapping[str, Kind],
    kinds: Mapping[str, Kind],
) -> Part:
    """The part of this shape; its faults are kept in `reading`."""
    scope = _Scope(reading=reading, words=words, asked=asked, kinds=dict(kinds))
    kind = shape.kind
    if kind not in _KEYS:
        reading.fault((*path, "kind"), f"no part is of kind `{kind}`", near(kind, list(_KEYS), "expected one of"))
        return _drawn(shape, scope, path)
    for key in sorted(shape.model_fields_set - {"name", "kind", "ask", "marks", *_KEYS[kind]}):
        reading.fault((*path, key), f"a part of kind {kind} has no `{key}`", f"expected {', '.join(_KEYS[kind])}")
    for key in _NEEDED[kind]:
        if getattr(shape, key) in (None, []):
            wrong = f"`{key}` is empty" if key in shape.model_fields_set else f"the key `{key}` is missing"
            reading.fault((*path, key), wrong, f"a part of kind {kind} needs {', '.join(_NEEDED[kind])}")
    _marks_in_reason(shape, scope, path)
    if kind == "table" and shape.marks is not None:
        reading.fault((*path, "marks"), "a table's marks are those of its rows", "expected no `marks` here")
    return _BINDERS[kind](shape, scope, path)


def _marks_in_reason(shape: PartShape | RowShape, scope: _Scope, path: Path) -> None:
    if shape.marks is not None and not 1 <= shape.marks <= _MOST_MARKS:
        scope.reading.fault((*path, "marks"), f"{shape.marks} marks", f"expected 1 to {_MOST_MARKS}")


def _number(shape: PartShape | RowShape, scope: _Scope, path: Path) -> NumberPart:
    marks = shape.marks or 1
    if shape.round is not None and shape.round > 6:
        scope.reading.fault((*path, "round"), f"{shape.round} decimal places", "expected 0 to 6")
    if len(shape.unit or "") > 20:
        scope.reading.fault((*path, "unit"), "the unit is too long", "expected at most 20 characters")
    row = isinstance(shape, RowShape)
    ask = scope.told((*path, "say" if row else "ask"), shape.say if isinstance(shape, RowShape) else shape.ask, _ASK)
    return NumberPart(
        name=shape.name,
        ask=ask,
        marks=marks,
        answer=scope.formula((*path, "answer"), shape.answer if shape.answer is not None else "0"),
        unit=shape.unit or "",
        places=shape.round,
        within=None if shape.within is None else scope.formula((*path, "within"), shape.within),
        accept=_routes(shape.accept, scope, (*path, "accept"), marks, otherwise=marks),
        working=_lines(shape.working, scope, (*path, "working"), marks),
        slips=_routes(shape.slips, scope, (*path, "slips"), marks, otherwise=0),
        told=shape.told,
        fixed=shape.fixed,
        apart_from=_earlier(shape.apart_from, scope, (*path, "apart_from")),
    )


def _earlier(names: Sequence[str], scope: _Scope, path: Path) -> tuple[str, ...]:
    """The names of earlier parts; a name that is none is a fault."""
    parts = sorted(set(scope.kinds) - set(scope.asked))
    for name in names:
        if name not in parts:
            scope.reading.fault(
                path,
                f"`{name}` is not an earlier part",
                near(name, parts, "expected one of" if parts else "expected none: this is the first"),
            )
    return tuple(names)


def _routes(
    shapes: Sequence[FigureShape], scope: _Scope, path: Path, marks: int, *, otherwise: int
) -> tuple[Route, ...]:
    if len(shapes) > 8:
        scope.reading.fault(path, f"{len(shapes)} entries", "at most 8")
    routes: list[Route] = []
    for index, shape in enumerate(shapes[:8]):
        earns = otherwise if shape.earns is None else shape.earns
        if earns > marks:
            scope.reading.fault((*path, index, "earns"), f"{earns} marks of {marks}", f"expected at most {marks}")
        value = scope.formula((*path, index, "value"), shape.value)
        routes.append(Route(value=value, says=scope.keyed((*path, index, "says"), shape.says), earns=earns))
    return tuple(routes)


def _lines(shapes: Sequence[LineShape], scope: _Scope, path: Path, marks: int) -> tuple[WorkingLine, ...]:
    if len(shapes) > 12:
        scope.reading.fault(path, f"{len(shapes)} lines of working", "at most 12")
    lines: list[WorkingLine] = []
    for index, shape in enumerate(shapes[:12]):
        here = (*path, index)
        if shape.earns not in (None, "method", "accuracy"):
            scope.reading.fault(
                (*here, "earns"), f"`{shape.earns}` is not a kind of mark", "expected method or accuracy"
            )
        value = None if shape.value is None else scope.formula((*here, "value"), shape.value, "number", "word", "truth")
        say = scope.keyed((*here, "say"), shape.say)
        lines.append(WorkingLine(say=say, value=value, unit=shape.unit, earns=shape.earns or ""))
    earning = sum(1 for line in lines if line.earns)
    if earning and earning != marks:
        scope.reading.fault(path, f"the lines earn {earning} marks, the part has {marks}", "expected the same number")
    if shapes and shapes[-1].value is None:
        scope.reading.fault(
            (*path, len(shapes) - 1, "value"),
            "the last line of the working has no value",
            "expected the answer, by plain arithmetic",
        )
    return tuple(lines)


def _choice(shape: PartShape, scope: _Scope, path: Path) -> ChoicePart:
    if shape.choices and not 2 <= len(shape.choices) <= 6:
        scope.reading.fault((*path, "choices"), f"{len(shape.choices)} choices", "expected 2 to 6")
    if shape.several == (shape.answer is not None):
        wrong = "several choices and one answer" if shape.several else "the key `answer` is missing"
        scope.reading.fault(
            path,
            wrong,
            "expected `answer` and a `value` to each choice, or `several: true` with `right` and `check`",
        )
    answer = None if shape.answer is None else scope.formula((*path, "answer"), shape.answer, "number", "word", "truth")
    if not shape.several and not shape.working:
        scope.reading.fault(
            path,
            "the key `working` is missing",
            "expected lines whose last value is the answer by plain arithmetic",
        )
    return ChoicePart(
        name=shape.name,
        ask=scope.told((*path, "ask"), shape.ask, _ASK),
        marks=shape.marks or 1,
        several=shape.several,
        answer=answer,
        choices=tuple(
            _one_choice(choice, shape.several, answer, scope, (*path, "choices", index))
            for index, choice in enumerate(shape.choices[:6])
        ),
        working=_lines(shape.working, scope, (*path, "working"), shape.marks or 1),
        apart_from=_earlier(shape.apart_from, scope, (*path, "apart_from")),
    )


def _one_choice(shape: ChoiceShape, several: bool, answer: Formula | None, scope: _Scope, path: Path) -> Choice:
    needed = ("right", "check") if several and answer is None else ("value",)
    for key in ("value", "right", "check"):
        if (getattr(shape, key) is not None) != (key in needed):
            wrong = f"`{key}` is {'missing' if key in needed else 'out of place'}"
            scope.reading.fault(path, wrong, f"expected say, {' and '.join(needed)}")
    kinds: tuple[Kind, ...] = ("number", "word", "truth") if answer is None else (answer.kind,)

    def compiled(key: str, *wants: Kind) -> Formula | None:
        text = getattr(shape, key)
        return None if text is None else scope.formula((*path, key), text, *wants)

    return Choice(
        say=scope.told((*path, "say"), shape.say),
        value=compiled("value", *kinds),
        right=compiled("right", "truth"),
        check=compiled("check", "truth"),
        says=None if shape.says is None else scope.keyed((*path, "says"), shape.says),
    )


def _order(shape: PartShape, scope: _Scope, path: Path) -> OrderPart:
    if shape.steps and not 3 <= len(shape.steps) <= 10:
        scope.reading.fault((*path, "steps"), f"{len(shape.steps)} steps", "expected 3 to 10")
    if any(len(pair) != 2 for pair in shape.before):
        scope.reading.fault((*path, "before"), "an entry is not a pair", "expected pairs [earlier, later]")
    part = OrderPart(
        name=shape.name,
        ask=scope.told((*path, "ask"), shape.ask, _ASK),
        marks=shape.marks or 1,
        steps=tuple(
            (step.name, scope.told((*path, "steps", index, "say"), step.say)) for index, step in enumerate(shape.steps)
        ),
        before=tuple((pair[0], pair[1]) for pair in shape.before if len(pair) == 2),
    )
    _check_order(part, scope.reading, path)
    return part


def _check_order(part: OrderPart, reading: Reading, path: Path) -> None:
    """Faults of an order part: pairs that name no step, that go in a circle, or that bind nothing."""
    names = [name for name, _ in part.steps]
    for pair in part.before:
        for name in pair:
            if name not in names:
                reading.fault((*path, "before"), f"`{name}` is not a step", near(name, names, "expected one of"))
    after: dict[str, set[str]] = {}
    for earlier, later in part.before:
        after.setdefault(later, set()).add(earlier)
    if len(set(names)) < len(names):
        reading.fault((*path, "steps"), "a step's name stands twice", "expected each name once")
    try:
        graphlib.TopologicalSorter(after).prepare()
    except graphlib.CycleError:
        reading.fault((*path, "before"), "the pairs go round in a circle", "expected each step before or after another")


def _table(shape: PartShape, scope: _Scope, path: Path) -> TablePart:
    if len(shape.rows) > 12:
        scope.reading.fault((*path, "rows"), f"{len(shape.rows)} rows", "at most 12")
    kinds = dict(scope.kinds)
    rows: list[NumberPart] = []
    for index, row in enumerate(shape.rows[:12]):
        inside = _Scope(reading=scope.reading, words=scope.words, asked=scope.asked, kinds=dict(kinds))
        _marks_in_reason(row, inside, (*path, "rows", index))
        rows.append(_number(row, inside, (*path, "rows", index)))
        kinds[row.name] = "number"
    return TablePart(name=shape.name, ask=scope.told((*path, "ask"), shape.ask, _ASK), rows=tuple(rows))


def _drawn(shape: PartShape, scope: _Scope, path: Path) -> DrawnPart:
    marks = shape.marks or len(shape.points) or 1
    if shape.points and marks % len(shape.points):
        scope.reading.fault(
            (*path, "marks"),
            f"{marks} marks for {len(shape.points)} points",
            "expected the same for each point",
        )
    return DrawnPart(
        name=shape.name,
        ask=scope.told((*path, "ask"), shape.ask, _ASK),
        marks=marks,
        points=tuple(scope.told((*path, "points", index), text) for index, text in enumerate(shape.points)),
        lines=_lines_to_write(shape.lines, scope, path) if shape.kind == "words" else 0,
        size=_sketch_size(shape.grid, scope, path),
        adds=shape.adds or "",
    )


def _lines_to_write(asked: int | None, scope: _Scope, path: Path) -> int:
    if asked is None:
        return _FEW_LINES
    if not 1 <= asked <= _MOST_LINES:
        scope.reading.fault((*path, "lines"), f"{asked} lines", f"expected 1 to {_MOST_LINES}")
    return max(1, min(asked, _MOST_LINES))


def _sketch_size(written: str | None, scope: _Scope, path: Path) -> tuple[int, int]:
    """The space to draw in, in mm, whole squares; a size that no page holds is a fault."""
    if written is None:
        return SKETCH_SIZE
    asked = _SIZE.fullmatch(" ".join(written.split()))
    each = (SQUARE if asked["unit"] == "squares" else 1) if asked else 0
    wide, high = (int(asked["wide"]) * each, int(asked["high"]) * each) if asked else (0, 0)
    if not (
        SQUARE <= wide <= SKETCH_SIZE[0] and SQUARE <= high <= _HIGHEST_SKETCH and wide % SQUARE == high % SQUARE == 0
    ):
        expected = f"expected such as 120 by 60 mm or 24 by 12 squares: whole squares of {SQUARE} mm, at most "
        expected += f"{SKETCH_SIZE[0]} by {_HIGHEST_SKETCH} mm"
        scope.reading.fault((*path, "grid"), f"`{harmless(written)}` is not a size to draw in", expected)
        return SKETCH_SIZE
    return wide, high


_BINDERS: Mapping[str, Callable[[PartShape, _Scope, Path], Part]] = {
    "number": _number,
    "choice": _choice,
    "order": _order,
    "table": _table,
    "drawn": _drawn,
    "words": _drawn,
}
