"""A choice in a bank: its keys, which choices are right by either route, and what is proved of them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar, cast

from pydantic import Field

from courseware.banks.formulas import Formula, Kind, Value
from courseware.banks.part import Part, Signature, Solved, WritesOut, solve_working
from courseware.banks.part_kinds import KindInBank
from courseware.banks.reading import Path, Scope, read_earlier, read_lines
from courseware.banks.shapes import ApartFrom, LineShape, Misconception, PartShape
from courseware.banks.variant_proof import shown, working_writes_out
from courseware.banks.wording import Wording
from courseware.text_files.shapes import Shape, Yes

_FEWEST, _MOST = 2, 6  # choices
_KINDS: tuple[Kind, ...] = ("number", "word", "truth")  # of what an answer may be


class ChoiceShape(Shape):
    """One of the choices to tick."""

    say: str = Field(description="the words of the choice")
    value: str | None = Field(None, description="a formula: right when it equals the part's answer")
    right: str | None = Field(None, description="with several: a truth, by the trade functions")
    check: str | None = Field(None, description="with several: the same truth, by the bank's own arithmetic")
    says: str | None = Field(None, description="the slip that ticking it wrongly shows")
    misconception: Misconception = None


class ChoiceKeys(Shape):
    """What a choice has."""

    answer: str | None = Field(None, description="a formula: the answer, by the trade functions")
    several: Yes = Field(False, description="true when more than one choice is right")
    choices: list[ChoiceShape] = Field([], description="a list of choices: say, and value or right and check")
    working: list[LineShape] = Field([], description="a list of lines: say, value, earns")
    apart_from: ApartFrom


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """One choice: `value` against the answer where one is right, `right` and `check` where several are."""

    say: Wording
    value: Formula | None
    right: Formula | None
    check: Formula | None
    says: Wording | None
    misconception: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoicePart(Part):
    """A part answered by ticking. `answer` is None where several choices are right."""

    kind: ClassVar[str] = "choice"
    may_stand: ClassVar[bool] = True  # the same choice may be right for many figures

    several: bool
    choices: tuple[Choice, ...]

    @property
    def goes_by(self) -> tuple[Formula, ...]:
        return tuple(formula for formula in (self.answer, *(one.value for one in self.choices)) if formula)

    @property
    def misconceptions(self) -> Mapping[str, str]:
        return {choice_step(place): one.misconception for place, one in enumerate(self.choices) if one.misconception}

    @property
    def offers(self) -> tuple[str, tuple[Wording, ...]]:
        return "choices", tuple(choice.say for choice in self.choices)

    @property
    def wordings(self) -> tuple[Wording, ...]:
        says = [choice.says for choice in self.choices if choice.says]
        return (self.ask, *(choice.say for choice in self.choices), *says, *(line.say for line in self.working))

    def solve(self, scope: dict[str, Value], carried: Mapping[str, Value]) -> SolvedChoice:
        working = solve_working(self.working, scope)
        if self.answer is None:
            values = tuple([choice.right.value(scope) for choice in self.choices if choice.right])
            checked = tuple([bool(choice.check.value(scope)) for choice in self.choices if choice.check])
            return SolvedChoice(self, None, values, tuple([bool(value) for value in values]), checked, working)
        answer = self.answer.value(scope)
        values = tuple([choice.value.value(scope) for choice in self.choices if choice.value])
        right = tuple([value == answer for value in values])
        scope[self.name] = carried.get(self.name, answer)
        return SolvedChoice(self, answer, values, right, right, working)


@dataclass(frozen=True, slots=True)
class SolvedChoice(Solved):
    """A choice part for one variant: which choices are right, by either route."""

    part: ChoicePart
    answer: Value | None
    values: tuple[Value, ...]  # each choice's value, or its truth where several are right
    right: tuple[bool, ...]
    checked: tuple[bool, ...]
    working: tuple[Value | None, ...]

    @property
    def value(self) -> Value | None:
        return self.answer

    @property
    def accepted(self) -> object:
        return self.answer, self.values

    @property
    def signature(self) -> Signature:
        return (sum(self.right),)

    @property
    def only_right(self) -> int | None:
        return None if self.part.several else self.right.index(True)

    def wrong(self, writes_out: WritesOut) -> str | None:
        name = self.part.name
        working_writes_out(name, self.working, writes_out)
        right, of = sum(self.right), len(self.right)
        if self.part.several:
            if self.right != self.checked:
                return f"{name}: `right` and `check` disagree about a choice"
            return None if 0 < right < of else f"{name}: {right} of {of} choices are right; some must be, not all"
        if self.working[-1] != self.answer:
            last = shown(self.working[-1])
            return f"{name}: `answer` gives {shown(self.answer)}, the last line of the working {last}"
        if right != 1:
            return f"{name}: {right} choices equal the answer {shown(self.answer)}; exactly one must"
        return f"{name}: two choices have the same value" if len(set(self.values)) < of else None


def choice_step(place: int) -> str:
    """The last step of the key of the slip behind a choice, by its place in the bank from 0."""
    return f"choice-{place + 1}"


def _bind(shape: PartShape, scope: Scope, path: Path) -> ChoicePart:
    keys = cast("ChoiceKeys", shape)
    if keys.choices and not _FEWEST <= len(keys.choices) <= _MOST:
        wrong, expected = f"{len(keys.choices)} choices", f"expected {_FEWEST} to {_MOST}"
        scope.reading.fault((*path, "choices"), wrong, expected)
    if keys.several == (keys.answer is not None):
        wrong = "several choices and one answer" if keys.several else "the key `answer` is missing"
        scope.reading.fault(
            path,
            wrong,
            "expected `answer` and a `value` to each choice, or `several: true` with `right` and `check`",
        )
    sound = len(scope.reading.faults)
    answer = None if keys.answer is None else scope.formula((*path, "answer"), keys.answer, *_KINDS)
    alike = (answer.kind,) if answer and len(scope.reading.faults) == sound else _KINDS
    if not keys.several and not keys.working:
        scope.reading.fault(
            path,
            "the key `working` is missing",
            "expected lines whose last value is the answer by plain arithmetic",
        )
    needed = ("right", "check") if keys.several and answer is None else ("value",)
    return ChoicePart(
        name=shape.name,
        ask=scope.asked_words((*path, "ask"), shape.ask),
        marks=shape.marks or 1,
        several=keys.several,
        answer=answer,
        choices=tuple(
            _one_choice(choice, needed, alike, scope, (*path, "choices", index))
            for index, choice in enumerate(keys.choices[:_MOST])
        ),
        working=read_lines(keys.working, scope, (*path, "working"), shape.marks or 1),
        apart_from=read_earlier(keys.apart_from, scope, (*path, "apart_from")),
    )


def _one_choice(shape: ChoiceShape, needed: Sequence[str], kinds: Sequence[Kind], scope: Scope, path: Path) -> Choice:
    for key in ("value", "right", "check"):
        if (getattr(shape, key) is not None) != (key in needed):
            wrong = f"`{key}` is {'missing' if key in needed else 'out of place'}"
            scope.reading.fault(path, wrong, f"expected say, {' and '.join(needed)}")

    def compiled(key: str, *wants: Kind) -> Formula | None:
        text = getattr(shape, key)
        return None if text is None else scope.formula((*path, key), text, *wants)

    return Choice(
        say=scope.told((*path, "say"), shape.say),
        value=compiled("value", *kinds),
        right=compiled("right", "truth"),
        check=compiled("check", "truth"),
        says=None if shape.says is None else scope.keyed((*path, "says"), shape.says),
        misconception=scope.phrase((*path, "misconception"), shape.misconception),
    )


KIND = KindInBank(place=2, keys=ChoiceKeys, needed=("choices", "marks"), bind=_bind)
