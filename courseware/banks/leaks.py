"""Whether a paper gives an answer away: each answer looked for in all else that a learner reads in its exercise."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from courseware.banks.drawing_kinds import drawn_figures, kind_of
from courseware.banks.exercise import Exercise, part_label
from courseware.banks.figures import Figure, whole_as_int
from courseware.banks.formulas import Formula, Value
from courseware.banks.number_part import SolvedNumber
from courseware.banks.part import Part, Solved
from courseware.banks.wording import Wording, say_value

LARGE_SHARE = Fraction(2, 5)  # of the variants, that print an answer: more than chance brings
FEWEST = 3  # variants that print it; fewer may be chance where a space is small, unless they are all of it
_FIGURE = re.compile(r"(?<![\w.:,])\d+(?:\.\d+)?(?![\d:⅓⅔⅙⅚⅛⅜⅝⅞¼¾½])", re.ASCII)  # not the 5 of 1:5, A5 or 5½
_WORD = re.compile(r"[^\W_]+")
_SHORTEST_CHOICE = 8  # characters: shorter choices, such as `the top`, stand in any question

AnswerTold = tuple[str, str]  # the part whose answer is told, and the place that tells it


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Something that a learner reads. `part` is the place of the part it belongs to, from 0; -1 before all parts."""

    name: str
    part: int
    wordings: tuple[Wording, ...] = ()
    figures: frozenset[Figure] = frozenset()  # that stand in it on every paper

    @property
    def formulas(self) -> tuple[Formula, ...]:
        return tuple(formula for wording in self.wordings for formula in wording.formulas)


def figures_in(text: str) -> frozenset[Figure]:
    """The plain figures in a text: those of a ratio such as 1:5, of a word or of a date are none."""
    return frozenset(whole_as_int(Fraction(figure)) for figure in _FIGURE.findall(text))


def places_read(exercise: Exercise) -> tuple[Place, ...]:
    """All that a learner reads in an exercise, apart from the sizes in its drawing: in the order of the paper."""
    before = (*exercise.settings, exercise.pose)
    found = [Place(name="the question", part=-1, wordings=before, figures=_fixed(before))]
    if line := _brick_line(exercise):
        found.append(Place(name="the line that gives the brick and its joints", part=-1, figures=line))
    if exercise.drawing is not None and exercise.drawing.own is not None:
        words = tuple(Wording((text,)) for text in exercise.drawing.own.words)
        found.append(Place(name="the drawing", part=-1, wordings=words, figures=_fixed(words)))
    for index, part in enumerate(exercise.parts):
        letter, (offers, offered) = part_label(index), part.offers
        found.append(Place(name=f"part {letter}", part=index, wordings=part.asks, figures=_fixed(part.asks)))
        if offered:
            name = f"the {offers} of part {letter}"
            found.append(Place(name=name, part=index, wordings=offered, figures=_fixed(offered)))
    return tuple(found)


def _brick_line(exercise: Exercise) -> frozenset[Figure]:
    """The figures that the sheet's line of the brick shows."""
    brick, shown = exercise.format, exercise.brick_line
    sizes = (brick.length, brick.width, brick.height) if shown != "none" else ()
    joints = (brick.perpend, brick.bed) if shown == "all" else ()
    return frozenset(whole_as_int(size) for size in (*sizes, *joints))


def _fixed(wordings: Sequence[Wording]) -> frozenset[Figure]:
    return frozenset().union(*(figures_in(piece) for w in wordings for piece in w.pieces if isinstance(piece, str)))


class LeakCount:
    """How often each answer stands where it should not, over the variants that are counted."""

    def __init__(self, exercise: Exercise) -> None:
        self.exercise = exercise
        self.places = places_read(exercise)
        self.fixed: dict[Figure, list[str]] = {}
        for place in self.places:
            for figure in place.figures:
                self.fixed.setdefault(figure, []).append(place.name)
        named: dict[str, tuple[Formula, list[str]]] = {}  # each formula once, with the places where it stands
        for place in self.places:
            for formula in place.formulas:
                if formula.kind == "number":
                    named.setdefault(formula.text, (formula, []))[1].append(place.name)
        self.formulas = tuple(named.values())
        self.texts = {place.name: _fixed_text(place.wordings) for place in self.places}
        self.told_always: dict[tuple[str, int], list[str]] = {}  # by choice and right answer, where all words are fixed

    def leaks(self, solved: Sequence[Solved], scope: Mapping[str, Value]) -> list[AnswerTold]:
        """Each answer of one variant that is told, and where."""
        shown = self._shown(scope)
        found: list[AnswerTold] = []
        for part in solved:
            for number in part.numbers:
                found += [(number.part.name, where) for where in _tellers(number, shown)]
        for part in solved:
            if (right := part.only_right) is not None:
                found += [(part.part.name, where) for where in self._choice_tellers(part.part, right, scope)]
        return found

    def _shown(self, scope: Mapping[str, Value]) -> dict[Figure, list[str]]:
        """The figures that a learner reads in this variant, each with the places where it stands."""
        shown = dict(self.fixed)
        for formula, names in self.formulas:
            value: Figure = formula.value(scope)  # type: ignore[assignment]  # a number, by its kind
            shown[value] = [*shown.get(value, ()), *names]
        drawing = self.exercise.drawing
        if drawing is not None and drawing.shows:
            kind, figures = kind_of(drawing), drawn_figures(drawing, scope)
            for dimension in drawing.shows:
                size = whole_as_int(Fraction(kind.dimensions[dimension](figures, self.exercise.format)))
                shown[size] = [*shown.get(size, ()), "the drawing"]
        return shown

    def _choice_tellers(self, part: Part, right: int, scope: Mapping[str, Value]) -> list[str]:
        """The places, other than the choice itself, with the words of the right choice and of no wrong one."""
        _, offered = part.offers
        others = [place for place in self.places if not place.wordings or place.wordings[0] is not offered[0]]
        fixed = all(self.texts[place.name] is not None for place in others)
        fixed = fixed and not any(say.formulas for say in offered)
        if fixed and (part.name, right) in self.told_always:
            return self.told_always[part.name, right]
        say = _squeezed(_text(offered[right], scope))
        telling = {}  # the texts that hold it, by place
        for place in others if len(say) >= _SHORTEST_CHOICE else ():
            text = self.texts[place.name]
            if text is None:
                text = _squeezed(" ".join(_text(wording, scope) for wording in place.wordings))
            if say in text:
                telling[place.name] = text
        wrong = {_squeezed(_text(one, scope)) for one in offered if telling} - {say}
        found = [name for name, text in telling.items() if not any(other in text for other in wrong)]
        if fixed:
            self.told_always[part.name, right] = found
        return found


def _tellers(number: SolvedNumber, shown: Mapping[Figure, list[str]]) -> set[str]:
    """The places that show the answer, or a figure within its band."""
    if not number.within:
        return set(shown.get(number.answer, ()))
    low, high = number.answer - number.within, number.answer + number.within
    return {name for figure, names in shown.items() if low <= figure <= high for name in names}


def _text(wording: Wording, scope: Mapping[str, Value]) -> str:
    pieces = [
        piece if isinstance(piece, str) else say_value(piece.value(scope)) if isinstance(piece, Formula) else " "
        for piece in wording.pieces
    ]
    return "".join(pieces)


def _fixed_text(wordings: Sequence[Wording]) -> str | None:
    """The words of some wordings, squeezed; None where they differ from variant to variant."""
    if any(wording.formulas for wording in wordings):
        return None
    return _squeezed(" ".join(_text(wording, {}) for wording in wordings))


@lru_cache(maxsize=4096)
def _squeezed(text: str) -> str:
    """A text as words alone, for comparing."""
    return f" {' '.join(_WORD.findall(text.casefold()))} "


def told_too_often(exercise: Exercise, told: Counter[AnswerTold], variants: int) -> str | None:
    """What is wrong with an exercise whose answers are told in so many of its variants; None where nothing is."""
    read = {place.name: place.part for place in places_read(exercise)}
    parts = {part.name: (index, any(number.told for number in part.numbers)) for index, part in exercise.entries}
    for (name, where), count in sorted(told.items(), key=lambda item: (-item[1], item[0])):
        index, meant = parts[name]
        if not _often(count, variants) or (meant and read.get(where, -1) <= index):
            continue
        often = "every variant" if count == variants else f"{count} of {variants} variants"
        if meant:
            return f"{where} gives the answer to {name} in {often}, after it is asked: put {name} behind it"
        return (
            f"{where} gives the answer to {name} in {often}: leave it out there, as `your answer to "
            f"{{{{ label({name}) }}}}`, or say `told: true` in {name} where the learner is to show how it comes"
        )
    return _told_by_nothing(parts, told, variants) or _sketched_already(exercise)


def _often(count: int, variants: int) -> bool:
    return count == variants or (count >= FEWEST and count >= LARGE_SHARE * variants)


def _told_by_nothing(parts: Mapping[str, tuple[int, bool]], told: Counter[AnswerTold], variants: int) -> str | None:
    given = {name for (name, _), count in told.items() if _often(count, variants)}
    for name, (_, meant) in parts.items():
        if meant and name not in given:
            return f"{name} says `told: true`, and nothing that the learner reads gives its answer"
    return None


def _sketched_already(exercise: Exercise) -> str | None:
    """A part that asks for a sketch beside a drawing must say what is left to draw."""
    if exercise.drawing is None or kind_of(exercise.drawing).to_draw_in:
        return None
    for part in exercise.parts:
        if part.leaves_sketch_open:
            return (
                f"{part.name} asks for a sketch where the exercise prints a drawing: say in `adds` what the learner "
                "draws that does not stand there, or leave the drawing out"
            )
    return None
