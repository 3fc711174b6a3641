"""How much of a feedback sheet is shown so that it keeps to one sheet: choices from the fullest to the barest."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from courseware.feedback.feedback_text import FeedbackSheet, FirstWrong, LostPart

SIDES = 2
_MANY = 16  # exercises, whose marks then run on instead of having a row each


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """What is shown of a sheet: answers worked, parts with a line each, those left blank, comments on the others."""

    worked: tuple[FirstWrong, ...]
    lost: tuple[LostPart, ...]
    blank: tuple[str, ...]
    comments: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """How much of a feedback sheet is shown."""

    worked: int  # wrong answers worked line by line, of the most telling
    beside: tuple[float, float] | None  # mm for a drawing beside one; none where it is left out
    over: tuple[float, float]  # mm for the fresh question's drawing
    lines: int  # parts that have a line each, of those that are not worked
    words: int  # characters of what is said in such a line, and as many of where to look
    comment: int  # characters of each comment
    secure: bool = True  # what is secure in words, a row an exercise
    safety: bool = True  # the fresh question's safety notes in full, and not their titles alone
    working: bool = True  # of the fresh question's answer, and its drawing where it is drawn
    fresh: bool = True
    flows: bool = False  # whether the fresh question goes on overleaf, what is signed then standing before it
    in_one_column: bool = False  # whether drawings stand over the words and not beside them
    turned: bool = False  # whether the fresh question begins the second side, though one would do

    def of(self, sheet: FeedbackSheet) -> Chosen:
        """What of a sheet is worked, in the order of the paper, and what there is of the parts that are not."""
        order = {lost.label: place for place, lost in enumerate(sheet.lost)}
        worked = sorted(sheet.wrong[: self.worked], key=lambda wrong: order[wrong.label])
        told = {wrong.label for wrong in worked}
        others = [lost for lost in sheet.lost if lost.label not in told]
        return Chosen(
            worked=tuple(worked),
            lost=tuple(lost for lost in others if not lost.blank),
            blank=tuple(lost.label for lost in others if lost.blank),
            comments=tuple(comment for comment in sheet.comments if comment[0] not in told),
        )


_ALL = 1000
_CHOICES = (
    Shown(worked=3, beside=(84, 50), over=(120, 60), lines=_ALL, words=150, comment=_ALL),
    Shown(worked=3, beside=(72, 44), over=(100, 50), lines=_ALL, words=90, comment=500),
    Shown(worked=3, beside=(60, 36), over=(90, 46), lines=24, words=70, comment=300, safety=False),
    Shown(worked=3, beside=(60, 36), over=(80, 40), lines=12, words=70, comment=300, safety=False),
    Shown(worked=2, beside=(72, 44), over=(100, 50), lines=24, words=90, comment=300),
    Shown(worked=2, beside=(60, 36), over=(90, 46), lines=24, words=70, comment=300, safety=False),
    Shown(worked=2, beside=(60, 36), over=(80, 40), lines=12, words=60, comment=300, safety=False),
    Shown(worked=1, beside=(72, 44), over=(90, 46), lines=24, words=70, comment=300, safety=False),
    Shown(worked=1, beside=(60, 36), over=(80, 40), lines=12, words=60, comment=150, safety=False),
    Shown(worked=1, beside=None, over=(84, 44), lines=16, words=70, comment=150, safety=False, secure=False),
    Shown(worked=0, beside=None, over=(84, 44), lines=16, words=70, comment=150, safety=False, secure=False),
    Shown(
        worked=0, beside=None, over=(84, 44), lines=8, words=60, comment=60, safety=False, secure=False, working=False
    ),
    Shown(
        worked=0,
        beside=None,
        over=(84, 44),
        lines=8,
        words=60,
        comment=60,
        safety=False,
        secure=False,
        working=False,
        flows=True,
    ),
    Shown(worked=1, beside=(72, 44), over=(84, 44), lines=8, words=60, comment=60, secure=False, fresh=False),
    Shown(worked=0, beside=None, over=(84, 44), lines=8, words=60, comment=60, secure=False, fresh=False),
)


def re_flowed(sheet: FeedbackSheet, wide: float) -> Shown:
    """What is shown of a sheet in larger type or with lines further apart: all of it, on as many sides as it takes.

    Of cautions that stand on the paper in full there are the titles alone. Nothing stands beside anything else;
    drawings have up to `wide` mm, before they are made larger with the type.
    """
    return replace(
        _CHOICES[0],
        beside=(wide, 50),
        over=(wide, 60),
        words=_ALL,
        secure=len(sheet.marks) <= _MANY,
        safety=False,
        flows=True,
        in_one_column=True,
    )


def choices(sheet: FeedbackSheet) -> Iterator[Shown]:
    """What may be shown of a sheet, the fullest first; a paper of many exercises has no row for each."""
    for choice in _CHOICES:
        yield replace(choice, secure=choice.secure and len(sheet.marks) <= _MANY)
