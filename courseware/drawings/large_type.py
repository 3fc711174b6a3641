"""A drawing for large print: drawn for a smaller room and made larger whole, so that no word is under the type's size.

Where its words have no room for that, letters stand in their place, and a list below the drawing says what each stands
for, with a box to write in for each size that is asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from string import ascii_uppercase

from courseware.drawings import draw
from courseware.drawings.dimension import BLANK, NAME, SMALL_BOX, Marks, box
from courseware.drawings.enlarged import resized
from courseware.drawings.fitted import Room, Sizes, touching
from courseware.drawings.foot import footed
from courseware.drawings.frame import framed
from courseware.drawings.lines import SYMBOL
from courseware.drawings.picture import SMALLEST_TYPE, Label, Picture, Stroke, moved
from courseware.drawings.reduced import fits, reduced
from courseware.papers.sheets import DrawingCall

_SHORT = 2  # letters: the number of a course stays where it is
_FIRST_SIGN = 0xE000  # nobody writes these (Unicode, private use): each holds the place of a size's letter
_LINE, _UNDER, _APART, _AFTER = 1.35 * NAME, 0.5 * NAME, 1.5 * NAME, 0.6 * NAME  # mm of the list; after a letter
_LETTERS = (*ascii_uppercase, *(a + b for a in ascii_uppercase for b in ascii_uppercase))

_Says = Mapping[str, str]


def in_large_type(call: DrawingCall, rooms: Sequence[Room], type_size: float) -> Picture:
    """The drawing for the first of its rooms, in mm, that takes it with no word under `type_size` mm of type.

    Its words stand in it where one of the rooms takes them, else in a list below it; where nothing is left, it is made
    smaller than any usual scale. What is drawn in keeps its size, with letters for its words.
    """
    if call.to_draw_in:
        return _at_true_size(draw(call), rooms[0][0], type_size)
    sizes = Sizes(call, SMALL_BOX)
    least = min([NAME, *_type_sizes(sizes.whole)])
    in_it = (_fitting(sizes, _small(room, least / type_size)) for room in rooms)
    in_a_list = (_lettered(call, _small(room, NAME / type_size)) for room in rooms)
    made = next(filter(None, in_it), None) or next(filter(None, in_a_list), None)
    return grown(made or _reduced(call, _small(rooms[-1], SMALLEST_TYPE / type_size)), type_size)


def grown(picture: Picture, type_size: float) -> Picture:
    """The picture as much larger whole as its smallest words must grow to be so many mm of type."""
    times = type_size / min(_type_sizes(picture), default=type_size)
    return resized(picture, times, lambda size: size * times, times) if times > 1 else picture


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """Letters for the words of one picture: for each, as it is drawn, its letter; for each letter, what it says.

    A size that is asked for says nothing: it has a box.
    """

    letters: Mapping[str, str]
    says: _Says


def lettering(picture: Picture, signs: _Says) -> Lettering:
    """The letters of a picture, A, B, C from the top left on; `signs` say what they stand for.

    What is short stands in the drawing as it is.
    """
    words = [mark for mark in picture.marks if isinstance(mark, Label)]
    words.sort(key=lambda word: (word.at[1], word.at[0]))
    told = {word.text: _told(word.text, signs) for word in words}
    short = {text: text for text, says in told.items() if 0 < len(says) <= _SHORT}
    free = (letter for letter in _LETTERS if letter not in {told[text] for text in short})
    long = {text: next(free) for text in told if text not in short}
    return Lettering(
        letters={text: told[text] for text in short} | long, says={long[text]: told[text] for text in long}
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _InLetters:
    """A drawing with its foot and with letters, and the list of them to go below it."""

    drawn: Picture
    below: Picture

    @property
    def whole(self) -> Picture:
        wide = max(self.drawn.width, self.below.width)
        aside = (wide - self.drawn.width) / 2
        marks = (
            *(moved(mark, aside, 0.0) for mark in self.drawn.marks),
            *(moved(mark, 0.0, self.drawn.height) for mark in self.below.marks),
        )
        return replace(self.drawn, width=wide, height=self.drawn.height + self.below.height, marks=marks, body=None)


def _lettered(call: DrawingCall, room: Room) -> Picture | None:
    """The drawing at the largest scale at which it, its letters and their list are within the room, if there is one."""
    [first, *others] = _in_letters(call, room)
    most = touching(first.drawn)
    return next((one.whole for one in (first, *others) if fits(one.whole, room) and touching(one.whole) <= most), None)


def _reduced(call: DrawingCall, room: Room) -> Picture:
    """The drawing made smaller than its letters, from the scale at which fewest then lie on one another."""
    smaller = (
        replace(one, drawn=reduced(one.drawn, (room[0], max(room[1] - one.below.height, room[1] / 2)), ratio=False))
        for one in _in_letters(call, room)
    )
    return min((one.whole for one in smaller), key=touching)


def _at_true_size(picture: Picture, wide: float, type_size: float) -> Picture:
    times = type_size / NAME
    found = lettering(picture, {})
    marks = (_lettered_mark(mark, found.letters, type_size) for mark in picture.marks)
    below = resized(_listed(found.says, wide / times), times, lambda size: size * times, times)
    return _InLetters(drawn=framed(tuple(marks), picture.alt), below=below).whole


def _in_letters(call: DrawingCall, room: Room) -> Iterator[_InLetters]:
    """The drawing with letters, at each scale that may come near to filling the room."""
    signs = {chr(_FIRST_SIGN + n): text or "" for n, text in enumerate(call.labels.values())}
    sizes = Sizes(replace(call, labels=dict(zip(call.labels, signs, strict=True))), SMALL_BOX)
    for narrow in (False, True):
        for drawn in sizes.made_for(room, ratio=False, narrow=narrow):
            bare = drawn.body or drawn
            found = lettering(bare, signs)
            marks = tuple(_lettered_mark(mark, found.letters) for mark in bare.marks)
            whole = footed(framed(marks, drawn.alt), drawn.one_to, drawn.legend, ratio=False, widest=room[0])
            yield _InLetters(drawn=whole, below=_listed(found.says, room[0]))


def _lettered_mark(mark: Stroke | Label, letters: Mapping[str, str], size: float = NAME) -> Stroke | Label:
    if isinstance(mark, Stroke):
        return mark
    return _upright(replace(mark, text=letters[mark.text], size=size, bold=True))


def _told(text: str, signs: _Says) -> str:
    for sign, says in signs.items():
        text = text.replace(sign, says)
    return text.strip()


def _upright(letter: Label) -> Label:
    """A letter in the place of a figure turned to be read from the right is read as it stands."""
    if letter.turn != 90 or letter.anchor != "middle":
        return letter
    x, y = letter.at
    return replace(letter, at=(x - letter.width / 2, y + letter.size / 3), turn=0)


def _small(room: Room, share: float) -> Room:
    return room[0] * share, room[1] * share


def _fitting(sizes: Sizes, room: Room) -> Picture | None:
    """The drawing that fits the room; its views may stand one below another."""
    return sizes.fitting(room, ratio=False) or sizes.fitting(room, ratio=False, narrow=True)


def _type_sizes(picture: Picture) -> list[float]:
    return [mark.size for mark in picture.marks if isinstance(mark, Label)]


def _listed(says: _Says, wide: float) -> Picture:
    """What each letter stands for, in as many columns as there is room for."""
    items = [_item(letter, text, wide) for letter, text in says.items()]
    if not items:
        return Picture(width=0, height=0, marks=(), alt="")
    column = max(item.width for item in items) + _APART
    columns = max(1, int((wide + _APART) / column))
    marks: Marks = ()
    down = _UNDER
    for row in (items[first : first + columns] for first in range(0, len(items), columns)):
        marks += tuple(moved(mark, n * column, down) for n, item in enumerate(row) for mark in item.marks)
        down += max(item.height for item in row)
    return Picture(width=min(columns, len(items)) * column - _APART, height=down, marks=marks, alt="")


def _item(letter: str, says: str, wide: float) -> Picture:
    """A letter with what it stands for, or with the box to write in."""
    name = Label(at=(0.0, NAME), text=letter, size=NAME, anchor="start", bold=True)
    left = name.width + _AFTER
    if not says:
        long, high = (SMALL_BOX * side for side in BLANK)
        drawn = SYMBOL.stroke(box(left, 0.0, left + long, high), closed=True, fill=1.0)
        return Picture(width=left + long, height=high + _UNDER, marks=(name, drawn), alt="")
    lines = [
        Label(at=(left, NAME + n * _LINE), text=line, size=NAME, anchor="start")
        for n, line in enumerate(_broken(says, wide - left))
    ]
    width = left + max(line.width for line in lines)
    return Picture(width=width, height=len(lines) * _LINE, marks=(name, *lines), alt="")


def _broken(text: str, wide: float) -> Iterator[str]:
    """A text in lines no wider, broken between words."""
    line = ""
    for word in text.split():
        longer = f"{line} {word}".strip()
        if line and Label(at=(0.0, 0.0), text=longer, size=NAME).width > wide:
            yield line
            longer = word
        line = longer
    yield line
