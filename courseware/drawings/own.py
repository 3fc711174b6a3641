"""A drawing of an author's own: the lines and words that were read of its file, put on paper as any other drawing."""

from __future__ import annotations

from courseware.banks.own_picture import OwnLine, OwnPicture, OwnWords
from courseware.drawings.frame import framed
from courseware.drawings.picture import Label, Picture, Stroke


def draw_own(own: OwnPicture, alt: str) -> Picture:
    """The picture, at its own size in mm."""
    return framed(tuple(_mark(mark) for mark in own.marks), alt)


def _mark(mark: OwnLine | OwnWords) -> Stroke | Label:
    if isinstance(mark, OwnWords):
        return Label(at=mark.at, text=mark.text, size=mark.size, anchor=mark.anchor, turn=mark.turn, bold=mark.bold)
    return Stroke(
        outlines=mark.runs, closed=mark.closed, weight=mark.weight, grey=mark.grey, fill=mark.fill, dash=mark.dash
    )
