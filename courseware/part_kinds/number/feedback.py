"""A figure fed back: the line of the bank's working where it first went wrong."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from courseware.banks.number_part import NumberPart, SolvedNumber, rounded
from courseware.feedback.advice import OF_ANY_KIND
from courseware.feedback.feedback_text import HERE, PLAIN, STANDS, FeedbackLine
from courseware.feedback.marked_part import MarkedPart
from courseware.feedback.part_kind import KindInFeedback
from courseware.marking.marks import How

_SAYS: Mapping[How, str] = {
    **OF_ANY_KIND,
    "unit": "The figure is right. The unit beside it is another one.",
    "rounding": "The working is right up to the last step, the rounding. Look at the figure after the last place: "
    "from 5 it rounds up.",
    "tens": "The digits are right, but the point stands in another place. Ask: can it be as large or as small as that?",
    "swapped": "Two digits have changed places. Read the figure back from the working before it goes into the box.",
    "family": "More than one slip gives this figure. Look which of these it was:",
    "unknown": "This figure is not one of the usual slips. See your working with your tutor.",
    "withheld": "The figure carried on from an earlier part cannot be right here. Put that part right first, then work "
    "this one again.",
    "elsewhere": "This figure is not one of the usual slips. Check that it comes from the numbers in this question.",
    "route": "This way of working reaches part of it.",
}
_AT_THE_END = {"unit", "rounding", "tens", "swapped"}
_TO_START_FROM = {"blank", "unreached", "elsewhere", "withheld"}
_WORDS = {
    "unit": "all but the unit stands",
    "rounding": "all but the rounding stands",
    "tens": "the digits stand; look at the point",
    "swapped": "look at the digits as written",
}
_FIRST, _AT_THE_LATEST, _FROM_HERE = "first wrong here", "wrong here at the latest", "look from here on"
_UP_TO_HERE = "The working up to that line:"


def _sentences(part: MarkedPart) -> tuple[str, ...]:
    how = part.mark.how
    asked_for = {"unit": f"It is asked for in {part.unit}.", "rounding": f"It is asked for {part.note}."}
    return tuple(said for said in (_SAYS.get(how, ""), asked_for.get(how, "")) if said)


def where_it_left(solved: SolvedNumber, slip: int) -> tuple[int, bool, str]:
    """The line, from 0, where a slip leaves the working, whether those before it are known to be right, what to say.

    Where a line of working has the slip's figure the working was left after it: the next line. Else a slip that earns
    nothing went wrong at the first line that earns; of one that still earns a mark, which may be for a later step,
    nothing is known, and it is the first line to look at.
    """
    part = solved.part
    same = [
        place
        for place, (line, value) in enumerate(zip(part.working, solved.working, strict=True))
        if line.unit in {None, part.unit}
        and not isinstance(value, bool | str | None)
        and rounded(part, value) == solved.slips[slip]
    ]
    if same:
        return min(same[-1] + 1, len(part.working) - 1), True, _FIRST
    if part.slips[slip].earns:
        return 0, False, _FROM_HERE
    place = line_after(part, 0)
    return place, False, _AT_THE_LATEST if place else _FIRST


def line_after(part: NumberPart, marks: int) -> int:
    """The place of the line after those that earned `marks`: the first line that earns where there are none."""
    last = len(part.working) - 1
    earning = [place for place, line in enumerate(part.working) if line.earns] or [last]
    return min(earning[min(marks, len(earning)) - 1] + 1, last) if marks else earning[0]


def _lines(part: MarkedPart) -> tuple[str, tuple[FeedbackLine, ...]]:
    how, working = part.mark.how, part.answer.working
    if how in _TO_START_FROM:
        figure = working[0].figure if len(working) > 1 else ""  # the only line is the answer: that is left to find
        return "A first line to start from:", (FeedbackLine(sign=PLAIN, say=working[0].say, figure=figure),)
    place, sure, word = _place(part, cast("SolvedNumber", part.solved))
    if place is None:
        plain = tuple(FeedbackLine(sign=PLAIN, say=line.say, figure=line.figure) for line in working)
        return "Hold your own working against these lines. Stop at the first that differs:", plain
    before = tuple(
        FeedbackLine(sign=STANDS if sure else PLAIN, say=line.say, figure=line.figure) for line in working[:place]
    )
    here = working[place]
    word = _WORDS.get(how, word)
    return _UP_TO_HERE, (*before, FeedbackLine(sign=HERE, say=here.say, figure=here.figure, word=word))


def _place(part: MarkedPart, solved: SolvedNumber) -> tuple[int | None, bool, str]:
    """Where the working was left, and whether it stands up to there; None where that is not known."""
    if part.mark.how in _AT_THE_END:
        return len(solved.part.working) - 1, True, _FIRST
    numbers = [slip.key.rpartition("/")[2] for slip in part.mark.slips]
    places = [where_it_left(solved, int(number) - 1) for number in numbers if number.isdigit()]
    if places:
        return min(places)
    return (line_after(solved.part, part.mark.marks), True, _FIRST) if part.mark.marks else (None, False, "")


KIND = KindInFeedback(sentences=_sentences, lines=_lines, worked=True)
