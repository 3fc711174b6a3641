"""An author's own picture once read: what of it a learner can read."""

from __future__ import annotations

from courseware.banks.own_picture import OwnLine, OwnPicture, OwnWords

LINE = OwnLine(runs=(((0, 0), (1, 1)),), closed=False, weight=0.5, grey=0.0, fill=None, dash=())


def words(text: str) -> OwnWords:
    return OwnWords(at=(0, 0), text=text, size=4.0, anchor="start", turn=0, bold=False)


def test_its_words_are_what_it_shows_and_what_stands_for_it() -> None:
    picture = OwnPicture(file="gate.svg", says="A gate in its wall", marks=(words("910"), LINE, words("clear span")))
    assert picture.words == ("A gate in its wall", "910", "clear span")


def test_a_picture_of_lines_alone_says_what_stands_for_it() -> None:
    assert OwnPicture(file="gate.svg", says="A gate", marks=(LINE,)).words == ("A gate",)
