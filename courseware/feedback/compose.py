"""A learner's feedback sheet: what is secure, where it first went wrong, one fresh question with its answer apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from courseware.feedback.feedback_text import FeedbackSheet, FirstWrong, FreshQuestion, Secure, VariantKey
from courseware.feedback.fresh_question import Spaces, Stock, next_level, same_kind
from courseware.feedback.marked_part import MarkedPart, marked_parts, most_telling, times_seen
from courseware.feedback.part_kind import FEEDBACK_KINDS
from courseware.marking.marks import MarkedPaper, NamedSlip
from courseware.papers.compose import Sources, compose_exercise, compose_key
from courseware.papers.sitting import Sitting
from courseware.reports.in_short import in_short
from courseware.words import count

_LONGEST_SECURE, _LONGEST_WRITTEN, _LONGEST_COMMENT = 150, 60, 1000
_CARRIED = " (with the figure carried on)"


def feedback_sheet(
    sitting: Sitting,
    place: int,
    marked: MarkedPaper,
    sources: Sources,
    spaces: Spaces,
    had: frozenset[VariantKey] = frozenset(),
    earlier: Sequence[NamedSlip] = (),
) -> FeedbackSheet:
    """The sheet of learner `place`, from 0.

    `spaces` are the proved spaces of the exercises a fresh question may come from, `had` the variants that the learner
    has had in other sittings, `earlier` the slips named there. Raises `NoMarks` for a paper that was not handed in.
    """
    key = compose_key(sitting, place, sources)
    parts = marked_parts(sitting.papers[place], key, marked, sources)
    telling = most_telling(parts, earlier)
    told = {part.mark.label for part in telling}
    stock = Stock(sitting=sitting, place=place, sources=sources, spaces=spaces, had=had)
    return FeedbackSheet(
        heading=key.heading,
        total=f"{marked.total} out of {marked.of}{' so far' if marked.provisional else ''}",
        notes=tuple(_notes(parts, marked)),
        secure=tuple(_secure(parts)),
        wrong=tuple(
            _first_wrong(part, parts, earlier, _cautions(sitting, place, part, sources))
            for part in sorted(telling, key=lambda part: part.number)
        ),
        comments=tuple(
            (part.mark.label, fit_to_print(part.mark.comment, _LONGEST_COMMENT))
            for part in parts
            if part.mark.comment and part.mark.label not in told
        ),
        fresh=_fresh(parts, telling, stock),
        cautions=key.cautions,
        scale=key.scale,
        signed=sitting.settings.signatures.feedback,
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


def _notes(parts: Sequence[MarkedPart], marked: MarkedPaper) -> Iterator[str]:
    asked = [part.mark.label for part in parts if part.mark.how == "asked"]
    left = [part.mark.label for part in parts if not part.secure]
    if asked:
        yield f"Still to be settled with your assessor, since it could not be read for certain: {', '.join(asked)}."
    if look := [part.mark.label for part in parts if part.mark.provisional and part.mark.how != "asked"]:
        yield f"Provisional until your assessor has looked at the working: {', '.join(look)}."
    if left and marked.status == "resubmitted":
        yield f"Handed in again: parts that were fully right kept their marks. Still open: {', '.join(left)}."
    elif left:
        yield f"If this paper is handed in again, these parts are open: {', '.join(left)}. The others keep their marks."
    elif marked.status == "resubmitted":
        yield "Handed in again: no part is open any more."


def _secure(parts: Sequence[MarkedPart]) -> Iterator[Secure]:
    """By exercise, the questions that were answered fully right; long lists are cut and counted."""
    for number, group in groupby(parts, lambda part: part.number):
        own = tuple(group)
        right = [part for part in own if part.secure]
        if not right:
            continue
        said = [f"{in_short(p.ask)}{_CARRIED if p.mark.how == 'carried' else ''} [{p.mark.label}]" for p in right]
        shown = 1
        while shown < len(said) and len(" ".join(said[: shown + 1])) <= _LONGEST_SECURE:
            shown += 1
        more = len(said) - shown
        rest = f" And {count(more, 'more part')}." if more else ""
        whole = "All of it: " if len(right) == len(own) > 1 else ""
        yield Secure(number=number, topic=own[0].exercise.asked.topic, says=whole + " ".join(said[:shown]) + rest)


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
