"""A cell looked at while it is typed: how it is read, what it earns, and what earlier answers carry to it."""

from __future__ import annotations

import pytest

from courseware.marking.marks import Decision, Script
from courseware.marking.one_cell import CellRead, read_cell, read_paper
from courseware.marking.part_kind import MARKING_KINDS, NotRead, Work
from courseware.papers.compose import read_sources
from courseware.papers.sitting import IssuedExercise, Sitting
from tests.marking.test_decided_answers import sitting_of

AT, GIVEN = "own/one-opening", {"bricks": 4}  # 4 × 225 + 10 = 910 mm, and half of it: Sheet 9, Table 1, CO + Joint


@pytest.fixture(scope="module")
def sitting() -> Sitting:
    """A panel of 4 bricks: how wide its opening is (1a), and how far each reveal is from the centre line (1b)."""
    return sitting_of(AT, GIVEN)


@pytest.fixture
def look(sitting):
    def go(label: str, status: str = "", decisions: tuple[Decision, ...] = (), **cells: str) -> CellRead:
        paper, sources = sitting.papers[0], read_sources(sitting)
        script = Script(code=paper.code, cells={f"1{part}": text for part, text in cells.items()}, status=status)
        read = read_paper(sitting, paper, [script], decisions, sources)
        return read_cell(paper, label, cells.get(label[1:], ""), read, sources)

    return go


@pytest.mark.parametrize(
    ("typed", "reading", "unclear", "how", "marks"),
    [
        ("910", "910 mm", "", "right", 2),
        (" 910 mm", "910 mm", "", "right", 2),
        ("0.91 m", "0.91 m = 910 mm", "", "right", 2),
        ("91cm", "91cm = 910 mm", "", "right", 2),
        ("910 kg", "910 kg: another unit than mm", "", "unit", 1),
        ("1½", "1½ = 1.5 mm", "", "unknown", 0),
        ("1/3", "1/3 mm", "", "unknown", 0),
        ("9,100", "9,100 = 9100 mm", "", "tens", 1),
        ("50,000", "", "a comma: 50 or 50000?", "asked", 0),
        ("see back", "", "it does not read as one figure", "asked", 0),
        ("9 units", "", "the unit `units` is not known here", "asked", 0),
        ("", "", "", "blank", 0),
        ("nr", "not reached", "", "unreached", 0),
    ],
)  # fmt: skip
def test_a_figure_is_read_out_as_it_is_marked(look, typed, reading, unclear, how, marks) -> None:
    seen = look("1a", a=typed)
    assert (seen.reading, seen.unclear, seen.mark.how, seen.mark.marks) == (reading, unclear, how, marks)


def test_what_earlier_answers_give_is_there_before_anything_is_typed(look) -> None:
    """900 left the joint out; half of it is 450 where 455 is right."""
    assert look("1b", a="900").carried == "450 mm"
    assert look("1b", a="910").carried == ""
    assert look("1b", a="see back").carried == ""
    assert look("1a", a="900").carried == ""
    assert look("1b", a="900", b="450").mark.how == "carried"


def test_an_absent_learner_has_no_mark(look) -> None:
    assert look("1a", status="absent").mark is None


def test_what_was_decided_stands(look, sitting) -> None:
    decided = Decision(code=sitting.papers[0].code, label="1a", marks=1, reason="said aloud")
    other = Decision(code="another", label="1a", marks=2, reason="no")
    mark = look("1a", decisions=(decided, other), a="7").mark
    assert (mark.how, mark.marks) == ("decided", 1)


def test_a_paper_of_which_nothing_is_in_can_be_looked_at(sitting) -> None:
    paper, sources = sitting.papers[0], read_sources(sitting)
    read = read_paper(sitting, paper, [], (), sources)
    assert read.marked is None
    assert read_cell(paper, "1a", "", read, sources).mark is None


def test_a_part_that_the_paper_has_not_is_none(look) -> None:
    with pytest.raises(KeyError):
        look("9z")


WHICH = {
    "name": "which", "kind": "choice", "ask": "Which?", "marks": 1, "answer": "bricks",
    "working": [{"say": "Count them", "value": "bricks"}],
    "choices": [{"say": f"It is {n}", "value": str(n)} for n in (3, 4)],
}  # fmt: skip
ORDER = {
    "name": "sequence", "kind": "order", "ask": "In order?", "marks": 1, "before": [["p", "q"], ["q", "r"]],
    "steps": [{"name": name, "say": f"Step {name}"} for name in "pqr"],
}  # fmt: skip
DRAWN = {
    "name": "sketch", "kind": "drawn", "ask": "Draw it.", "marks": 3,
    "points": ["Three bricks stand", "They are plumb", "A joint between"],
}  # fmt: skip


@pytest.mark.parametrize(
    ("part", "typed", "reading"),
    [
        (WHICH, "", ""), (WHICH, "nr", "not reached"), (WHICH, "A and B", "A, B"),
        (WHICH, "RIGHT", "RIGHT: It is 4"), (WHICH, "C", "`C` is not one of the letters A to B?"),
        (ORDER, "c a b", "C, then A, then B"), (ORDER, "", ""), (ORDER, "aab", "a letter stands twice?"),
        (DRAWN, "yny", "points 1 and 3 seen, 2 not"), (DRAWN, "ynn", "point 1 seen, 2 and 3 not"),
        (DRAWN, "all", "every point seen"), (DRAWN, "none", "no point seen"), (DRAWN, "nr", "not reached"),
        (DRAWN, "", ""), (DRAWN, "yy", "write y or n for each of the 3 points, as yyn; or all, or none?"),
    ],
)  # fmt: skip
def test_letters_and_ticks_are_read_out(on_paper, exercise, part, typed, reading) -> None:
    """What ends in ? here is what is asked of a cell that does not read."""
    on = on_paper(part, bricks=4)
    made, [entry] = exercise(parts=[part]), on.entries
    issued = IssuedExercise(
        topic="Piers", exercise=made.name, given={"bricks": "4"}, site={}, setting="", parts=on.entries
    )
    work, kind = Work(issued, made), MARKING_KINDS[part["kind"]]
    try:
        read = kind.read(made.parts[0], entry, work, typed.replace("RIGHT", entry.answer))
    except NotRead as asked:
        read = f"{asked}?"
    assert read == reading.replace("RIGHT", entry.answer)
    assert kind.carried(made.parts[0], entry, work) == ""
