"""The sheet on which a quality assurer looks a sitting through before it is printed: every variant side by side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from courseware.drawings.fitted import Sizes
from courseware.drawings.picture import Picture
from courseware.papers.compose import Sources, compose_exercise
from courseware.papers.dates import in_full
from courseware.papers.exam_time import about_minutes
from courseware.papers.sheets import AskedPart, KeyAnswer, KeyExercise
from courseware.papers.sitting import IssuedExercise, Sitting
from courseware.quality.criteria import Criterion
from courseware.reports.in_short import cut
from courseware.reports.report import Block, Report, Table
from courseware.settings.settings import Settings
from courseware.words import count

MOST_VARIANTS = 30  # of one exercise that are shown; what they have in common is proved of all
_ANSWERS_IN_A_TABLE = 5
_LONGEST_ASK, _LONGEST_GIVEN, _LONGEST_ANSWER = 1200, 120, 60
_FIGURE, _FIGURE_WIDE, _ANSWERS_WIDE, _WORDS_WIDE = 11, 20, 100, 50  # characters; then mm
_BESIDE, _BELOW = (84, 70), (170, 90)  # mm: rooms for a drawing
_ROUGH = "Times are rough counts, as many minutes to a mark as school examinations in mathematics give."
_SIGNED = "Assurer: ______________________________   Date: ______________"
_FINDING = "Approved as it stands  [  ]     Approved with the changes noted  [  ]     Not approved  [  ]"


@dataclass(frozen=True, slots=True)
class _Variant:
    """A variant with its key, and how many papers have it."""

    issued: IssuedExercise
    key: KeyExercise
    papers: int


def assurer_sheet(sitting: Sitting, sources: Sources, criteria: Sequence[Criterion], settings: Settings) -> Report:
    """The sheet of a sitting as dealt, by the centre's criteria where it has any. It names no learner and no paper."""
    exercises = [_variants(sitting, place, sources) for place in range(len(sitting.papers[0].exercises))]
    marks = sum(variants[0].key.asked.marks for variants in exercises)
    approved = (f"Approved by {sitting.approved_by}.",) if sitting.approved_by else (_FINDING, _SIGNED)
    about = (
        f"{sitting.title}{f', {sitting.group}' if sitting.group else ''}, {in_full(sitting.date)}: "
        f"{count(len(sitting.papers), 'paper')} of {count(len(exercises), 'exercise')}, {count(marks, 'mark')}, "
        f"about {count(about_minutes(marks), 'minute')}. {_ROUGH}"
    )
    return Report(
        file="assurer-sheet",
        title="For the quality assurer, before papers are printed",
        centre=settings.name,
        blocks=(
            Block(text=(about, *approved)),
            *(block for variants in exercises for block in _blocks(variants, criteria)),
        ),
    )


def _variants(sitting: Sitting, place: int, sources: Sources) -> list[_Variant]:
    """The variants of the exercise at `place` of every paper, each once, in the order of the papers."""
    found: dict[tuple[tuple[str, str], ...], list[IssuedExercise]] = {}
    for paper in sitting.papers:
        issued = paper.exercises[place]
        found.setdefault(tuple(issued.given.items()), []).append(issued)
    return [
        _Variant(issued=own[0], key=compose_exercise(place + 1, own[0], sources), papers=len(own))
        for own in found.values()
    ]


def _blocks(variants: Sequence[_Variant], criteria: Sequence[Criterion]) -> Iterator[Block]:
    first, shown = variants[0], variants[:MOST_VARIANTS]
    asked = first.key.asked
    heading = f"{asked.number}  {asked.topic}: {first.issued.exercise.replace('-', ' ')}"
    says = (
        f"Level {asked.level}, {count(asked.marks, 'mark')}, about {count(about_minutes(asked.marks), 'minute')}; "
        f"{count(len(variants), 'variant')}."
        f"{_criteria_words(_served(first.issued, criteria)) if criteria else ''}"
    )
    posed = f"As variant 1 has it: {cut(' '.join((asked.setting, asked.pose)).strip(), _LONGEST_ASK)}"
    more = len(variants) - len(shown)
    left = (f"{count(more, 'more variant')}, proved alike, in the keys.",) if more else ()
    picture, beside = _drawing(first.key)
    yield Block(heading=heading, text=(says, posed, *_asks(first.key), *left), picture=picture, beside=beside)
    labels = [answer.label for answers in first.key.answers for answer in answers]
    for start in range(0, len(labels), _ANSWERS_IN_A_TABLE):
        yield Block(table=_answers(shown, labels[start : start + _ANSWERS_IN_A_TABLE]))
    if slips := tuple(_slips(shown)):
        headings = ("Part", "Slip looked for", "Earns", "Its figure, variant by variant")
        yield Block(table=Table(headings=headings, rows=slips, widths=(16, 70, 14, 0)))


def _drawing(key: KeyExercise) -> tuple[Picture | None, bool]:
    """The drawing as the key has it, and whether it stands beside its words; one to draw in keeps its size."""
    if key.drawing is None:
        return None, False
    sizes = Sizes(key.drawing)
    small = None if key.drawing.to_draw_in else sizes.fitting(_BESIDE)
    return small or sizes.within(_BELOW), small is not None


def _asks(key: KeyExercise) -> Iterator[str]:
    for part, answers in key.by_part:
        more = [f"{answers[0].within}"] if answers and answers[0].within else []
        more += [f"accepted too: {accepted.says}" for answer in answers for accepted in answer.accepts]
        told = "; ".join(dict.fromkeys((count(part.marks, "mark"), *more)))
        yield f"{part.label}  {cut(_ask(part), _LONGEST_ASK)} ({told})"


def _ask(part: AskedPart) -> str:
    options = f" {'; '.join(f'{letter} {words}' for letter, words in part.options)}" if part.options else ""
    return f"{part.ask}{options}"


def _answers(variants: Sequence[_Variant], labels: Sequence[str]) -> Table:
    rows: list[tuple[str, ...]] = []
    for number, variant in enumerate(variants, 1):
        own = {answer.label: answer for answers in variant.key.answers for answer in answers}
        given = ", ".join(f"{name} {value}" for name, value in variant.issued.given.items())
        told = (_answer(own[label]) if label in own else "" for label in labels)
        rows.append((str(number), str(variant.papers), cut(given, _LONGEST_GIVEN), *told))
    headings = ("Variant", "Papers", "Given", *labels)
    longest = [max(map(len, column)) for column in zip(*(row[3:] for row in rows), strict=True)]
    return Table(headings=headings, rows=tuple(rows), widths=(16, 14, 0, *_widths(longest)))


def _widths(longest: Sequence[int]) -> Iterator[int]:
    """How wide each column of answers is by its longest: those with words share what columns of figures leave."""
    words = sum(most > _FIGURE for most in longest)
    left = _ANSWERS_WIDE - _FIGURE_WIDE * (len(longest) - words)
    for most in longest:
        yield _FIGURE_WIDE if most <= _FIGURE else min(_WORDS_WIDE, left // words)


def _answer(answer: KeyAnswer) -> str:
    words = f" ({'; '.join(answer.chosen)})" if answer.chosen else ""
    band = f" {answer.within}" if answer.within else ""
    return cut(f"{answer.answer or 'by eye'}{band}{words}", _LONGEST_ANSWER)


def _slips(variants: Sequence[_Variant]) -> Iterator[tuple[str, ...]]:
    """A row a slip of each part: its words on the first variant, and its figure on each."""
    first = [answer for answers in variants[0].key.answers for answer in answers]
    every = [{one.label: one for answers in variant.key.answers for one in answers} for variant in variants]
    for answer in first:
        for place, slip in enumerate(answer.slips):
            theirs = (own[answer.label].slips for own in every if answer.label in own)
            figures = [slips[place].figure if place < len(slips) else "-" for slips in theirs]
            yield answer.label, slip.says, str(slip.earns), "; ".join(figures)


def _served(issued: IssuedExercise, criteria: Sequence[Criterion]) -> Mapping[str, tuple[str, ...]]:
    """The criteria that the exercise serves, by code, each with the labels of its parts that do; all of them: ()."""
    found: dict[str, tuple[str, ...]] = {}
    for criterion in criteria:
        for evidence in criterion.parts:
            if (evidence.topic, evidence.exercise) == (issued.topic, issued.exercise):
                own = tuple(part.label for part in issued.parts if part.name in evidence.marked_as)
                found[criterion.code] = tuple(dict.fromkeys((*found.get(criterion.code, ()), *own)))
    return found


def _criteria_words(serves: Mapping[str, Sequence[str]]) -> str:
    if not serves:
        return " It serves none of the centre's criteria."
    return " Criteria: " + "; ".join(f"{code} by {', '.join(labels)}" for code, labels in serves.items()) + "."
