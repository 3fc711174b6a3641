"""An author's own picture put on paper: its lines and words as they were read, no scale and no legend claimed for it."""

from __future__ import annotations

from courseware.banks.own_picture import OwnLine, OwnPicture, OwnWords
from courseware.drawings.own import draw_own
from courseware.drawings.picture import Label, Stroke

LINE = OwnLine(runs=(((0.0, 0.0), (30.0, 10.0)),), closed=True, weight=0.3, grey=0.2, fill=0.5, dash=(1.0, 2.0))
WORDS = OwnWords(at=(5.0, 8.0), text="lintel", size=4.0, anchor="middle", turn=90, bold=True)


def test_lines_and_words_are_drawn_as_they_were_read() -> None:
    picture = draw_own(OwnPicture(file="a.svg", says="A lintel", marks=(LINE, WORDS)), "Drawing: A lintel")
    line, words = picture.marks
    assert isinstance(line, Stroke)
    assert isinstance(words, Label)
    assert (line.weight, line.grey, line.fill, line.dash, line.closed) == (0.3, 0.2, 0.5, (1.0, 2.0), True)
    (x1, y1), (x2, y2) = line.outlines[0]
    assert (x2 - x1, y2 - y1) == (30.0, 10.0)
    assert (words.text, words.size, words.anchor, words.turn, words.bold) == ("lintel", 4.0, "middle", 90, True)
    assert (words.at[0] - x1, words.at[1] - y1) == (5.0, 8.0)
    assert (picture.alt, picture.one_to, picture.body) == ("Drawing: A lintel", None, None)
