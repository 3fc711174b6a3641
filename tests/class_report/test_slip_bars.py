"""The bars of what went wrong read back as a drawing: lengths go by counts."""

from __future__ import annotations

import pytest

from courseware.class_report.misconceptions import Misconception
from courseware.class_report.slip_bars import ROW, WIDE, counted, slip_bars
from courseware.drawings.picture import Label, Picture, Stroke


def wrong(words: str, seen: str, perhaps: str = "") -> Misconception:
    """Seen by the papers and in the parts of each two signs: `A1 A2 B1`."""
    pairs = [tuple((one[0], one[1:]) for one in text.split()) for text in (seen, perhaps)]
    return Misconception(words=words, says="", seen=pairs[0], perhaps=pairs[1])


BEDS = wrong("the beds were left out", "A1 A2 A3 B1 B2 C1", "D1 D2")
COUNT = wrong("the count was out by one", "A1 B1 C1")
ONCE = wrong("the joints were left out", "A4")
MAYBE = wrong("the top bed was left out", "", "A1 B1")


def bars(picture: Picture) -> dict[str, list[tuple[float, float, int]]]:
    """The lengths of bars with their left ends and their lines, by how they are drawn."""
    found: dict[str, list[tuple[float, float, int]]] = {}
    for mark in picture.marks:
        if isinstance(mark, Stroke) and mark.closed:
            kind = "perhaps" if mark.dash else "learners" if mark.fill == 0 else "times"
            for outline in mark.outlines:
                xs, ys = [x for x, _ in outline], [y for _, y in outline]
                found.setdefault(kind, []).append((max(xs) - min(xs), min(xs), int(min(ys) // ROW)))
    return found


def test_bars_are_as_long_as_their_counts_and_start_where_they_belong() -> None:
    found = bars(slip_bars([BEDS, COUNT, ONCE, MAYBE]))
    unit = found["times"][0][0] / 6
    assert [round(long / unit, 6) for long, _, _ in found["times"]] == [6, 3, 1]
    assert [round(long / unit, 6) for long, _, _ in found["learners"]] == [3, 3, 1]
    assert [round(long / unit, 6) for long, _, _ in found["perhaps"]] == [2, 2]
    axis = found["times"][0][1]
    assert {left for kind in ("times", "learners") for _, left, _ in found[kind]} == {axis}
    assert [round((left - axis) / unit, 6) for _, left, _ in found["perhaps"]] == [6, 0]
    assert [line for _, _, line in found["times"]] == [0, 1, 2]
    assert [line for _, _, line in found["perhaps"]] == [0, 3]


@pytest.mark.parametrize(("one", "says"), [
    (BEDS, "6 times, 3 learners, 3 questions"),
    (COUNT, "3 times, 3 learners, 1 question"),
    (wrong("", "A1 A2"), "2 times, 1 learner, 2 questions"),
    (ONCE, "once, in 4"),
    (MAYBE, "perhaps 2 times"),
    (wrong("", "", "A1"), "perhaps 1 time"),
])  # fmt: skip
def test_each_says_its_counts_in_words(one: Misconception, says: str) -> None:
    assert counted(one) == says


def test_words_stand_before_their_bars_and_counts_behind_all_on_the_picture(wide) -> None:
    long = wrong("x" * 20 + " and a great many words more, so many that nobody reads them", "A1 " * 999)
    picture = slip_bars([long, BEDS])
    labels = [mark for mark in picture.marks if isinstance(mark, Label)]
    assert all(label.size >= 8 * 25.4 / 72 for label in labels)
    assert labels[0].text.endswith(" …")
    assert labels[2].text == "The beds were left out"
    for label in labels:
        long = wide(label)
        start = label.at[0] - (long if label.anchor == "end" else 0)
        assert start >= 0, label.text
        assert start + long <= WIDE, label.text
    assert picture.height == 2 * ROW


def test_no_slip_makes_no_bar() -> None:
    picture = slip_bars([])
    assert bars(picture) == {}
    assert picture.alt == "Bars of what went wrong: none"


def test_the_alternative_text_has_every_bar() -> None:
    alt = slip_bars([BEDS, MAYBE]).alt
    assert alt.endswith(
        "The beds were left out: 6 times, 3 learners, 3 questions; the top bed was left out: perhaps 2 times"
    )
