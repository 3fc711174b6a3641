"""A drawing made smaller to fit a room, its words less so."""

from __future__ import annotations

from courseware.drawings.enlarged import resized
from courseware.drawings.picture import Picture

_SMALLEST_TYPE = 2.1  # mm, in a drawing made smaller


def reduced(picture: Picture, room: tuple[float, float]) -> Picture:
    """The picture made smaller where it is larger than `room`; its words shrink less, so that they can be read."""
    by = min(1.0, room[0] / picture.width, room[1] / picture.height)
    return resized(picture, by, lambda size: max(size * by, min(size, _SMALLEST_TYPE)))
