"""A learner's feedback sheet: each mark, what is secure, what went wrong, a fresh question with its answer apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from courseware.feedback.feedback_text import (
    HERE,
    ExerciseMarks,
    FeedbackLine,
    FeedbackSheet,
    FirstWrong,
    FreshQuestion,
    LostPart,
    PartMark,
    VariantKey,
)
from courseware.feedback.fresh_question import Spaces, Stock, next_level, same_kind
from courseware.feedback.marked_part import MarkedPart, marked_parts, most_telling, times_seen
from courseware.feedback.part_kind import FEEDBACK_KINDS
from courseware.marking.marks import MarkedPaper, NamedSlip
from courseware.papers.compose import Sources, compose_exercise, compose_key
from courseware.papers.sitting import Sitting
from courseware.reports.in_short import cut, in_short
from courseware.words import count

_LONGEST_SECURE, _LONGEST_WRITTEN, _LONGEST_COMMENT = 40, 60, 1000  # characters
_MOST_NAMED = 12  # labels in a sentence
_LONGEST_MARKER, _LONGEST_CHANGE = 200, 240  # characters
_CARRIED = " carried on"  # right with the learner's own earlier figure


def feedback_sheet(
    sitting: Sitting,
    place: int,
    marked: MarkedPaper,
    sources: Sources,
    spaces: Spaces,
    had: frozenset[VariantKey] = frozenset(),
    earlier: Sequence[NamedSlip] = (),
    marked_by: str = "",
    changed: Sequence[str] = (),
    asked_again: Sequence[str] = (),
) -> FeedbackSheet:
    """The sheet of learner `place`, from 0.

    `spaces` are the proved spaces of the exercises a fresh question may come from, `had` the variants that the learner
    has had in other sittings, `earlier` the slips named there, `marked_by` who marked and when, `changed` what is other
    than on a sheet handed back before, `asked_again` the parts whose decision has lapsed. Raises `NoMarks` for a paper
    that was not handed in.
    """
    key = compose_key(sitting, place, sources)
    parts = marked_parts(sitting.papers[place], key, marked, sources)
    telling = most_telling(parts, earlier)
    stock = Stock(sitting=sitting, place=place, sources=sources, spaces=spaces, had=had)
    return FeedbackSheet(
        heading=key.heading,
        total=f"{marked.total} out of {marked.of}{' so far' if marked.provisional or asked_again else ''}",
        notes=tuple(_notes(parts, marked, changed, asked_again)),
        marks=tuple(_exercise_marks(parts)),
        wrong=tuple(_first_wrong(part, parts, earlier, _cautions(sitting, place, part, sources)) for part in telling),
        lost=tuple(_lost(part) for part in parts if part.lost),
        comments=tuple(
            (part.mark.label, fit_to_print(part.mark.comment, _LONGEST_COMMENT)) for part in parts if part.mark.comment
        ),
        fresh=_fresh(parts, telling, stock),
        cautions=key.cautions,
        marked_by=fit_to_print(marked_by, _LONGEST_MARKER),
        signed=sitting.settings.signatures.feedback,
        set_as=sitting.papers[place].learner.sheets,
    )


def fit_to_print(text: str, most: int) -> str:
    """Text that came from outside, fit to print: no unseen characters, at most `most` others."""
    seen = " ".join("".join(character if character.isprintable() else " " for character in text).split())
    return seen if len(seen) <= most else f"{seen[:most].rstrip()} …"


def _fresh(parts: Sequence[MarkedPart], telling: Sequence[MarkedPart], stock: Stock) -> FreshQuestion | None:
    """Of the kind of the most telling slip, else of what is still to be settled; with everything right a level up."""
    unsettled = [part for part in parts if not part.secure]
    wanted = next(iter((*telling, *unsettled)), None)
    return same_kind(stock, wanted) if wanted else next_level(stock)


def _notes(
    parts: Sequence[MarkedPart], marked: MarkedPaper, changed: Sequence[str], asked_again: Sequence[str]
) -> Iterator[str]:
    yield from (fit_to_print(one, _LONGEST_CHANGE) for one in changed)
    asked = [part.mark.label for part in parts if part.mark.how == "asked"]
    left = [part.mark.label for part in parts if not part.secure]
    if asked:
        yield f"Still to be settled with your assessor, since it could not be read for certain: {', '.join(asked)}."
    if asked_again:
        yield f"Your assessor decides again, since the answer is another now: {', '.join(asked_again)}."
    if look := [part.mark.label for part in parts if part.mark.provisional and part.mark.how != "asked"]:
        yield f"Provisional until your assessor has looked at the working: {', '.join(look)}."
    if left and marked.status == "resubmitted":
        yield f"Handed in again: parts that were fully right kept their marks. Still open: {_named(left)}."
    elif left:
        yield f"If this paper is handed in again, these parts are open: {_named(left)}. The others keep their marks."
    elif marked.status == "resubmitted":
        yield "Handed in again: no part is open any more."


def _named(labels: Sequence[str]) -> str:
    """Parts by their labels; of many that they are marked in the table below."""
    return ", ".join(labels) if len(labels) <= _MOST_NAMED else f"the {len(labels)} marked ► or ? below"


def _exercise_marks(parts: Sequence[MarkedPart]) -> Iterator[ExerciseMarks]:
    """Every exercise with its marks."""
    for number, group in groupby(parts, lambda part: part.number):
        own = tuple(group)
        yield ExerciseMarks(
            number=number,
            topic=own[0].exercise.asked.topic,
            secure=_secure(own),
            parts=tuple(
                PartMark(
                    label=part.mark.label.removeprefix(str(number)),
                    marks=f"{part.mark.marks}/{part.mark.of}{_CARRIED if part.mark.how == 'carried' else ''}",
                    sign="✓" if part.secure else "?" if part.mark.provisional else "►",
                )
                for part in own
            ),
        )


def _secure(own: Sequence[MarkedPart]) -> str:
    """What of an exercise was answered fully right, in the words of its first such question; the others are counted."""
    right = [part for part in own if part.secure]
    if not right:
        return ""
    more = f" and {len(right) - 1} more" if right[1:] else ""
    return cut(in_short(right[0].ask), _LONGEST_SECURE - len(more)) + more


def _lost(part: MarkedPart) -> LostPart:
    """A part that lost marks, in a line."""
    kind = FEEDBACK_KINDS[part.solved.part.kind]
    says = kind.slips(part) or kind.sentences(part)
    _, lines = kind.lines(part)
    return LostPart(
        label=part.mark.label,
        marks=f"{part.mark.marks} of {part.mark.of}",
        written=fit_to_print(kind.written(part), _LONGEST_WRITTEN),
        says=" Or: ".join(says[:2]),
        look=_where_to_look(lines),
        blank=part.mark.how in {"blank", "unreached"},
    )


def _where_to_look(lines: Sequence[FeedbackLine]) -> str:
    """The first line that is marked to look at; of a working to start from, its first."""
    return next((line.say for line in lines if line.sign == HERE or len(lines) == 1), "")


def _first_wrong(
    part: MarkedPart, parts: Sequence[MarkedPart], earlier: Sequence[NamedSlip], cautions: str
) -> FirstWrong:
    asked, mark, kind = part.exercise.asked, part.mark, FEEDBACK_KINDS[part.solved.part.kind]
    lead, lines = kind.lines(part)
    times = times_seen(part, parts, earlier)
    return FirstWrong(
        label=mark.label,
        topic=asked.topic,
        ask=part.ask,
        marks=f"{mark.marks} of {count(mark.of, 'mark')}",
        written=fit_to_print(kind.written(part), _LONGEST_WRITTEN),
        says=kind.sentences(part),
        slips=kind.slips(part),
        lead=lead,
        lines=lines,
        repeated=f"This has come {times} times: go through it with your tutor." if times > 1 else "",
        comment=fit_to_print(mark.comment, _LONGEST_COMMENT),
        cautions=cautions,
        drawing=None if asked.drawn_in_place else part.exercise.drawing,
        unit=part.unit,
        worked=kind.worked,
        squares=kind.squares(part),
    )


def _cautions(sitting: Sitting, place: int, part: MarkedPart, sources: Sources) -> str:
    """Titles of the cautions that an exercise carries, of those printed on the paper."""
    issued = sitting.papers[place].exercises[part.number - 1]
    return ", ".join(note.title for note in compose_exercise(part.number, issued, sources).asked.safety)
