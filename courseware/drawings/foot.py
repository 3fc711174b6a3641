"""What stands below a drawing: the bar of its scale with the length that it stands for, and what each brick looks like.

A picture is drawn without it first; its foot is laid out at the picture's size on paper, so that the bar is true there
and its words are no smaller, whatever was done to the picture before.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from courseware.drawings.dimension import NAME, Marks, box
from courseware.drawings.lines import SYMBOL
from courseware.drawings.looks import LOOKS, bricks_of
from courseware.drawings.picture import Label, Picture, moved
from courseware.drawings.scale import SCALES

WIDEST = 110.0  # mm of paper that a foot may take where its picture is narrower
_LONGEST, _ITS_WORDS = 32.0, 18.0  # mm of paper for the bar, and for the length that it stands for
_BAR, _SWATCH = 1.6, (5.5, 2.9)  # mm: the bar's height; a brick in the legend
_ROW, _OVER, _BETWEEN, _SPACE = 4.4, 1.0, 4.5, 1.2  # mm: of a row, above the first, between two things, before words
_MARGIN = 1.0
_DOWN = 1.0  # mm from a row's middle to the line that its words stand on
_RATIO, _SMALLER = "scale 1:", 5
_NICE = tuple(digit * 10**power for power in range(5) for digit in (1, 2, 5))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Thing:
    """One thing in a row: marks round a point at the middle of its left side, and how wide it is."""

    marks: Marks
    width: float


def footed(
    picture: Picture,
    one_to: float | None,
    legend: tuple[str, ...] = (),
    *,
    ratio: bool = True,
    widest: float = WIDEST,
) -> Picture:
    """The picture with its foot, as far as it has one: none where nothing is to scale and bricks are of one kind.

    A `ratio` is written where it is a usual scale; a screen, which has no size of its own, is given none. A foot that
    is longer than the picture runs out at both sides of it, to `widest` mm, before it takes another row.
    """
    things = [_bar(one_to, min(_LONGEST, widest - _ITS_WORDS))] if one_to else []
    if one_to in SCALES and ratio:
        things.append(_words(_ratio(one_to)))
    bricks = [_brick(kind) for kind in legend] if len(legend) > 1 else []
    if not things and not bricks:
        return picture
    marks, wide, high = _in_rows((things, bricks), max(picture.width, widest) - 2 * _MARGIN)
    whole = max(picture.width, round(wide + 2 * _MARGIN, 3))
    aside = round((whole - picture.width) / 2, 3)
    drawn = tuple(moved(mark, aside, 0.0) for mark in picture.marks) if aside else picture.marks
    return replace(
        picture,
        width=whole,
        height=round(picture.height + _OVER + high, 3),
        marks=drawn + tuple(moved(mark, _MARGIN, picture.height + _OVER) for mark in marks),
        one_to=one_to,
        legend=legend,
        body=picture,
    )


def scale_words(picture: Picture) -> tuple[str, ...]:
    """The words of a picture's bars and legend, which say nothing of what is asked."""
    return tuple(mark.text for mark in picture.marks if isinstance(mark, Label) and mark.of_scale)


def possible_words(picture: Picture) -> set[str]:
    """The words of its bars and legend, and those that they have where the same is made up to 5 times smaller."""
    words = set(scale_words(picture))
    lengths = [int(word.removesuffix(" mm")) for word in words if word.endswith(" mm")]
    words |= {f"{n} mm" for length in lengths for n in _NICE if length <= n <= _SMALLER * length}
    if picture.one_to:
        words |= {_ratio(n) for n in SCALES if picture.one_to <= n <= _SMALLER * picture.one_to}
    return words


def without_ratio(picture: Picture) -> Picture:
    """The picture without the words that say its ratio, which are not true of it at another size."""
    stay = tuple(m for m in picture.marks if not (isinstance(m, Label) and m.of_scale and m.text.startswith(_RATIO)))
    return replace(picture, marks=stay)


def bar_length(one_to: float, longest: float = _LONGEST) -> int:
    """What the bar of a scale of 1 to `one_to` stands for, in mm: a round length of at most so many mm of paper.

    >>> bar_length(20), bar_length(75), bar_length(5)
    (500, 2000, 100)
    """
    return max((length for length in _NICE if length <= longest * one_to), default=1)


def scale_bar(one_to: float, longest: float = _LONGEST) -> Marks:
    """The bar from nought to the right, in parts dark and light, with its length after it."""
    length = bar_length(one_to, longest)
    parts = 5 if str(length).startswith("5") else 4
    wide = length / one_to / parts
    pieces = tuple(box(n * wide, -_BAR / 2, (n + 1) * wide, _BAR / 2) for n in range(parts))
    return (
        SYMBOL.stroke(*pieces[::2], closed=True, fill=0.0),
        SYMBOL.stroke(*pieces[1::2], closed=True, fill=1.0),
        _label(parts * wide + _SPACE, f"{length} mm"),
    )


def _ratio(one_to: float | None) -> str:
    return f"{_RATIO}{one_to:g}"


def _bar(one_to: float, longest: float) -> _Thing:
    marks = scale_bar(one_to, longest)
    words = marks[-1]
    assert isinstance(words, Label)
    return _Thing(marks=marks, width=words.at[0] + words.width)


def _words(text: str) -> _Thing:
    words = _label(0.0, text)
    return _Thing(marks=(words,), width=words.width)


def _brick(kind: str) -> _Thing:
    wide, high = _SWATCH
    words = _label(wide + _SPACE, LOOKS[kind].says)
    brick = bricks_of(kind, (box(0, -high / 2, wide, high / 2),))
    return _Thing(marks=(*brick, words), width=wide + _SPACE + words.width)


def _label(x: float, text: str) -> Label:
    return Label(at=(x, _DOWN), text=text, size=NAME, anchor="start", of_scale=True)


def _in_rows(groups: tuple[list[_Thing], ...], room: float) -> tuple[Marks, float, float]:
    """The things side by side, in a new row where one does not fit; how wide and how high they are together.

    A group that does not fit what is left of a row starts a row of its own.
    """
    marks: Marks = ()
    left, middle, widest = 0.0, _ROW / 2, 0.0
    for group in groups:
        wide = sum(thing.width + _BETWEEN for thing in group) - _BETWEEN
        for n, thing in enumerate(group):
            if left and left + (wide if n == 0 else thing.width) > room:
                left, middle = 0.0, middle + _ROW
            marks += tuple(moved(mark, left, middle) for mark in thing.marks)
            widest = max(widest, left + thing.width)
            left += thing.width + _BETWEEN
    return marks, widest, middle + _ROW / 2
