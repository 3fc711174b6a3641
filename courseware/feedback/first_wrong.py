"""The line of the bank's working where an answer first went wrong; of choices, steps and points the ones to look at."""

from __future__ import annotations

from collections.abc import Iterator

from courseware.banks.exercise import NumberPart
from courseware.banks.solve import SolvedChoice, SolvedNumber, rounded
from courseware.feedback.feedback_text import HERE, PLAIN, STANDS, FeedbackLine
from courseware.feedback.marked_part import MarkedPart
from courseware.marking.lettered import NotRead, read_letters, read_ticks

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


def lines_of(part: MarkedPart) -> tuple[str, tuple[FeedbackLine, ...]]:
    """The lines to show of a part that lost marks, and what they are."""
    if isinstance(part.solved, SolvedNumber):
        return _working(part, part.solved)
    if isinstance(part.solved, SolvedChoice):
        return "The choices:", tuple(_choices(part, part.solved))
    if part.asked.kind == "order":
        return _steps(part)
    return "What the drawing is to show:", tuple(_points(part))


def _working(part: MarkedPart, solved: SolvedNumber) -> tuple[str, tuple[FeedbackLine, ...]]:
    how, working = part.mark.how, part.answer.working
    if how in _TO_START_FROM:
        figure = working[0].figure if len(working) > 1 else ""  # the only line is the answer: that is left to find
        return "A first line to start from:", (FeedbackLine(sign=PLAIN, say=working[0].say, figure=figure),)
    place, sure, word = _place(part, solved)
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


def _choices(part: MarkedPart, solved: SolvedChoice) -> Iterator[FeedbackLine]:
    """What was ticked and what is right, in the order of the paper; then why, where one is right."""
    ticked = _letters(part)
    noted = dict(note.split(": ", 1) for note in part.answer.notes)
    right = part.issued.answer.split(",")
    for letter, say in part.asked.options:
        if letter in ticked and letter in right:
            yield FeedbackLine(sign=STANDS, say=f"{letter}: {say}")
        elif letter in ticked:
            word = "this one does not fit" + (f". {noted[letter]}" if letter in noted else "")
            yield FeedbackLine(sign=HERE, say=f"{letter}: {say}", word=word)
        elif letter in right:
            word = "this one fits as well" if solved.part.several and ticked else "this one fits"
            yield FeedbackLine(
                sign=HERE if solved.part.several and ticked else PLAIN, say=f"{letter}: {say}", word=word
            )
    for line in part.answer.working:
        yield FeedbackLine(sign=PLAIN, say=line.say, figure=line.figure)


def _steps(part: MarkedPart) -> tuple[str, tuple[FeedbackLine, ...]]:
    """The learner's own order up to the first step that stands too early, or what is left out of it."""
    says, written = dict(part.asked.options), _letters(part)
    lines: list[FeedbackLine] = []
    for place, letter in enumerate(written):
        first = next((a for a, b in part.issued.before if b == letter and a not in written[:place]), None)
        if first:
            word = f"too early here: {first}, {says[first]}, comes before it"
            return "Your order, up to the first step that stands too early:", (
                *lines,
                FeedbackLine(sign=HERE, say=f"{letter}: {says[letter]}", word=word),
            )
        lines.append(FeedbackLine(sign=STANDS, say=f"{letter}: {says[letter]}"))
    if written:
        left_out = (FeedbackLine(sign=HERE, say=f"{a}: {says[a]}", word="left out") for a in says if a not in written)
        return "Your order, and what is left out of it:", (*lines, *left_out)
    start = part.issued.answer.split(",")[0]
    return "A first step to start from:", (FeedbackLine(sign=PLAIN, say=f"{start}: {says[start]}"),)


def _points(part: MarkedPart) -> Iterator[FeedbackLine]:
    points = [note.rpartition(" [")[0] for note in part.answer.notes]  # without the marks, which the key adds
    try:
        seen: tuple[bool | None, ...] = read_ticks(part.mark.written, len(points))
    except NotRead:
        seen = (None,) * len(points)
    for point, met in zip(points, seen, strict=True):
        sign = PLAIN if met is None else STANDS if met else HERE
        yield FeedbackLine(sign=sign, say=point, word="look at this again" if met is False else "")


def _letters(part: MarkedPart) -> tuple[str, ...]:
    try:
        return read_letters(part.mark.written, len(part.asked.options))
    except NotRead:
        return ()
