"""What is said about a part that lost marks: plain sentences about the task, never about the person."""

from __future__ import annotations

from courseware.banks.solve import SolvedChoice, SolvedNumber
from courseware.feedback.marked_part import MarkedPart
from courseware.marking.marks import How

_FIGURES: dict[How, str] = {
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
    "blank": "Nothing is written here.",
    "unreached": "This part was not reached.",
    "decided": "The assessor has marked this part. Go through it together.",
    "route": "This way of working reaches part of it.",
}
_ORDERS: dict[How, str] = {
    "partly": "Part of the order works on the wall.",
    "wrong": "This order does not work on the wall yet.",
    **{how: _FIGURES[how] for how in ("blank", "unreached", "decided")},
}
_CHOICES: dict[How, str] = {
    "partly": "Some of the ticks fit.",
    "wrong": "What was ticked does not fit.",
    **{how: _FIGURES[how] for how in ("blank", "unreached", "decided")},
}
_DRAWINGS: dict[How, str] = {
    "partly": "Some of what is looked for is there.",
    "wrong": "What is looked for is not there yet.",
    "blank": "Nothing is drawn here.",
    **{how: _FIGURES[how] for how in ("unreached", "decided")},
}


def sentences(part: MarkedPart) -> tuple[str, ...]:
    """What to say of the part beside its slip, in one or two sentences."""
    how = part.mark.how
    if isinstance(part.solved, SolvedNumber):
        asked_for = {"unit": f"It is asked for in {part.unit}.", "rounding": f"It is asked for {part.note}."}
        return tuple(said for said in (_FIGURES.get(how, ""), asked_for.get(how, "")) if said)
    if isinstance(part.solved, SolvedChoice):
        return _said(_CHOICES, how)
    return _said(_ORDERS if part.asked.kind == "order" else _DRAWINGS, how)


def slip_words(part: MarkedPart) -> tuple[str, ...]:
    """The slip and its rule in the bank's own words. A choice has its words beside the choice itself."""
    if isinstance(part.solved, SolvedChoice):
        return ()
    return tuple(f"{slip.says.rstrip('.')}." for slip in part.mark.slips)


def _said(words: dict[How, str], how: How) -> tuple[str, ...]:
    return (words[how],) if how in words else ()
