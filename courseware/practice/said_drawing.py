"""A drawing's alternative text with all that is written in the drawing: who cannot see it has every figure drawn.

Sizes asked for are not written in it, so they are not said either.
"""

from __future__ import annotations

import re
from dataclasses import replace

from courseware.drawings.picture import Label, Picture
from courseware.words import listed

_FIGURE = re.compile(r"\d+(?:\.\d+)?[½¼¾⅓⅔]?|[½¼¾⅓⅔]")


def all_said(picture: Picture) -> Picture:
    """The picture, its words and figures that its text does not say added to it; then its scale."""
    said = set(_FIGURE.findall(picture.alt))
    labels = [mark for mark in picture.marks if isinstance(mark, Label)]
    left = [mark.text for mark in labels if not mark.of_scale and not set(_FIGURE.findall(mark.text)) <= said]
    scale = [mark.text for mark in labels if mark.of_scale and _FIGURE.search(mark.text)]
    more = f" Also written in it: {listed(list(dict.fromkeys(left)))}." if left else ""
    bar = f" The bar of its scale: {listed(list(dict.fromkeys(scale)))}." if scale else ""
    return replace(picture, alt=picture.alt + more + bar)
