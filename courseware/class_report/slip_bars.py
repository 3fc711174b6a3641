"""Slips as bars, one for each thing that went wrong: black for the learners, grey on to all the times it was seen."""

from __future__ import annotations

from collections.abc import Sequence

from courseware.class_report.misconceptions import Misconception
from courseware.drawings.dimension import box
from courseware.drawings.picture import Label, Picture, Stroke
from courseware.reports.in_short import cut
from courseware.words import count

WIDE = 176.0  # mm
SIZE = 2.9  # mm of type: 8 pt and a little
ROW = 5.6  # mm
_LEFT, _BARS = 80.0, 44.0  # mm: the words before a bar, and the longest bar
_LONGEST = 54  # characters of them
_THICK = 3.4  # mm of a bar
_TIMES = 0.78  # grey


def slip_bars(found: Sequence[Misconception]) -> Picture:
    """A bar for each, in their order: as long as it was seen times, black as far as learners go, dashed for perhaps."""
    most = max((one.times + len(one.perhaps) for one in found), default=1)
    unit = _BARS / most
    learners, times, perhaps = [], [], []
    words: list[Label] = []
    for line, one in enumerate(found):
        top = ROW * line + (ROW - _THICK) / 2
        base = ROW * line + ROW / 2 + SIZE * 0.36
        sure, all_of_it = _LEFT + unit * one.times, _LEFT + unit * (one.times + len(one.perhaps))
        words.append(Label(at=(_LEFT - 1.5, base), text=cut(capital(one.words), _LONGEST), size=SIZE, anchor="end"))
        words.append(Label(at=(all_of_it + 1.5, base), text=counted(one), size=SIZE, anchor="start"))
        if one.perhaps:
            perhaps.append(box(sure, top, all_of_it, top + _THICK))
        if one.times:
            times.append(box(_LEFT, top, sure, top + _THICK))
            learners.append(box(_LEFT, top, _LEFT + unit * one.learners, top + _THICK))
    strokes = (
        Stroke(outlines=tuple(perhaps), closed=True, weight=0.25, dash=(1.0, 0.8)) if perhaps else None,
        Stroke(outlines=tuple(times), closed=True, weight=0.25, fill=_TIMES) if times else None,
        Stroke(outlines=tuple(learners), closed=True, weight=0, fill=0.0) if learners else None,
    )
    high = ROW * len(found)
    rule = Stroke(outlines=(((_LEFT, 0.0), (_LEFT, high)),), weight=0.35)
    marks: tuple[Stroke | Label, ...] = (*(stroke for stroke in strokes if stroke), rule, *words)
    return Picture(width=WIDE, height=max(high, 1.0), marks=marks, alt=_alt(found))


def counted(one: Misconception) -> str:
    """`9 times, 5 learners, 4 questions`; where it was never certain `perhaps 2 times`."""
    if not one.times:
        return f"perhaps {count(len(one.perhaps), 'time')}"
    if one.times == 1:
        return f"once, in {one.labels[0]}"
    learners, questions = count(one.learners, "learner"), count(len({label for _, label in one.seen}), "question")
    return f"{one.times} times, {learners}, {questions}"


def capital(words: str) -> str:
    """Words as a sentence begins.

    >>> capital("the beds were left out")
    'The beds were left out'
    """
    return words[:1].upper() + words[1:]


def _alt(found: Sequence[Misconception]) -> str:
    bars = "; ".join(f"{one.words}: {counted(one)}" for one in found)
    return f"Bars of what went wrong, by learners. {capital(bars)}" if found else "Bars of what went wrong: none"
