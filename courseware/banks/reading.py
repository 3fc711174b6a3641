"""A bank while it is read: faults gathered, formulas and wording compiled, and what several kinds of part have."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from courseware.banks.compile_formula import compile_formula
from courseware.banks.formulas import Formula, FormulaFault, Kind
from courseware.banks.number_part import Route
from courseware.banks.part import WorkingLine
from courseware.banks.shapes import FigureShape, LineShape, SlipShape
from courseware.banks.vocabulary import Vocabulary
from courseware.banks.wording import SITE_WORDS, Wording, label_of, read_wording
from courseware.settings.settings import Settings
from courseware.settings.upright_joint import with_own_word
from courseware.text_files.did_you_mean import near
from courseware.text_files.faults import Fault
from courseware.text_files.yaml_tree import Node, place, text_at

Path = tuple[str | int, ...]
_PLACEHOLDER: Mapping[Kind, str] = {"number": "0", "truth": "True", "word": "''"}
_MOST_MARKS = 20
_ASK, _SAY, _PHRASE = 500, 300, 80  # characters


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
class Scope:
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

    def asked_words(self, path: Path, text: str) -> Wording:
        """The question of a part or row."""
        return self.told(path, text, _ASK)

    def keyed(self, path: Path, text: str) -> Wording:
        """Wording that stands on the key alone."""
        return self.reading.wording(path, text, self.words, self.kinds, _SAY)

    def phrase(self, path: Path, text: str | None) -> str:
        """A few plain words, the same on every paper, for the tutor alone: no places, no full stop at the end."""
        if text is None:
            return ""
        if "{{" in text:
            expected = "expected plain words, the same in every question, such as `the beds were left out`"
            self.reading.fault(path, f"`{path[-1]}` has a place to fill in", expected)
            return ""
        said = self.reading.wording(path, " ".join(text.split()), self.words, {}, _PHRASE).pieces
        return "".join(map(str, said)).rstrip(".")


def read_marks(marks: int | None, scope: Scope, path: Path) -> int:
    """The marks of a part or row, 1 where it says nothing; a figure out of reason is a fault."""
    if marks is not None and not 1 <= marks <= _MOST_MARKS:
        scope.reading.fault((*path, "marks"), f"{marks} marks", f"expected 1 to {_MOST_MARKS}")
    return marks or 1


def read_earlier(names: Sequence[str], scope: Scope, path: Path) -> tuple[str, ...]:
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


def read_routes(
    shapes: Sequence[FigureShape], scope: Scope, path: Path, marks: int, *, otherwise: int
) -> tuple[Route, ...]:
    """Accepted routes or slips; one that says nothing of what it earns earns `otherwise`."""
    if len(shapes) > 8:
        scope.reading.fault(path, f"{len(shapes)} entries", "at most 8")
    routes: list[Route] = []
    for index, shape in enumerate(shapes[:8]):
        earns = otherwise if shape.earns is None else shape.earns
        if earns > marks:
            scope.reading.fault((*path, index, "earns"), f"{earns} marks of {marks}", f"expected at most {marks}")
        value = scope.formula((*path, index, "value"), shape.value)
        says = scope.keyed((*path, index, "says"), shape.says)
        wrong = shape.misconception if isinstance(shape, SlipShape) else None
        misconception = scope.phrase((*path, index, "misconception"), wrong)
        routes.append(Route(value=value, says=says, earns=earns, misconception=misconception))
    return tuple(routes)


def read_lines(shapes: Sequence[LineShape], scope: Scope, path: Path, marks: int) -> tuple[WorkingLine, ...]:
    """The lines of a working, whose last has the answer."""
    if len(shapes) > 12:
        scope.reading.fault(path, f"{len(shapes)} lines of working", "at most 12")
    lines: list[WorkingLine] = []
    for index, shape in enumerate(shapes[:12]):
        here = (*path, index)
        if shape.earns not in (None, "method", "accuracy"):
            wrong = f"`{shape.earns}` is not a kind of mark"
            scope.reading.fault((*here, "earns"), wrong, "expected method or accuracy")
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
