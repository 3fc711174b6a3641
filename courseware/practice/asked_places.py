"""Where in a drawing each of its sizes that are asked for stands, so that a larger look at it opens there."""

from __future__ import annotations

from collections.abc import Mapping
from statistics import fmean

from courseware.drawings.dimension import to_write_in
from courseware.drawings.picture import Label, Picture, Stroke, extent

_PER_CENT = 100


def asked_places(
    blank: Picture, filled: Picture, labels: Mapping[str, str | None], asks: Mapping[str, str]
) -> dict[str, list[int]]:
    """By part, the middle of its box in per cent of the drawing's width and height.

    `filled` is the same drawing with the answers in their boxes, as `labels` has them by dimension; `asks` has the part
    of each. A part whose answer stands there twice, or whose box cannot be told, is left out.
    """
    answers = [text for dimension in asks if (text := labels[dimension]) is not None]
    boxes = [mark for mark in blank.marks if to_write_in(mark)]
    written = [mark.text for mark in filled.marks if isinstance(mark, Label) and mark.text in answers]
    if len(boxes) != len(written):
        return {}
    stands = dict(zip(written, boxes, strict=True))  # both in the order that they are drawn in
    return {
        part: _middle(stands[text], blank)
        for dimension, part in asks.items()
        if (text := labels[dimension]) is not None and written.count(text) == 1
    }


def _middle(box: Stroke | Label, picture: Picture) -> list[int]:
    across, down = zip(*extent(box), strict=True)
    return [round(_PER_CENT * fmean(across) / picture.width), round(_PER_CENT * fmean(down) / picture.height)]
