"""The state of a script, step by step, and each step that is refused because the one before it was not taken."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

import pytest

from courseware.database.errors import RecordRefuses
from courseware.database.history import history
from courseware.database.kept_marks import keep_marks, marks_of
from courseware.database.scripts import enter_scripts
from courseware.database.states import confirm, release, script_states, take_back
from courseware.database.typed_cells import TypedCell, type_cell
from courseware.marking.marks import Decision, Mark, MarkedPaper
from tests.database.conftest import labels


@pytest.fixture
def step(record, sitting, later, written, marked):
    """What may be done to the first paper's script, one thing after another, a minute apart."""
    paper = sitting.papers[0]
    minute = 0

    def at():
        nonlocal minute
        minute += 1
        return later(minute)

    class Step:
        code = paper.code

        cells: Mapping[str, str]

        def enter(self, *cells: str, status: str = "", decisions=()) -> None:
            self.cells = written(paper, *cells).cells
            more = {"assessor": "J. Marsh", "role": "first", "source": "x.xlsx", "at": at()}
            enter_scripts(record, sitting.code, [written(paper, *cells, status=status)], decisions, **more)

        def mark(self, *marks: Mark, status: str = "", **more: object) -> None:
            made = (
                MarkedPaper(code=paper.code, status=status, marks=marks)
                if marks
                else marked(paper, status=status, **more)
            )
            as_typed = tuple(replace(mark, written=self.cells[mark.label]) for mark in made.marks)
            made = replace(made, marks=as_typed)
            keep_marks(record, sitting.code, [made], by="J. Marsh", role="first", at=at())

        def say(self, what, *codes: str, **more: str):
            return what(record, sitting.code, codes, by="A. Boateng", at=at(), **more)

        @property
        def now(self):
            return script_states(record, sitting.code)[0]

        def decided(self, label: str, marks: int, reason: str = "method shown") -> Decision:
            return Decision(code=paper.code, label=label, marks=marks, reason=reason)

    return Step()


def first_label(sitting) -> str:
    return labels(sitting.papers[0])[0]


@pytest.mark.each_database
def test_entered_provisional_marked_confirmed_released(step, sitting, record) -> None:
    label = first_label(sitting)
    assert script_states(record, sitting.code) == ()
    step.enter("900")
    assert step.now.words == "entered"
    step.mark(Mark(label=label, marks=0, of=2, how="unknown", why="See the working."))
    assert step.now.words == f"provisional (open: {label})"
    step.mark(Mark(label=label, marks=1, of=2, how="decided", why="Method shown."))
    assert step.now.words == "marked"
    assert step.say(confirm).codes == (step.code,)
    assert step.now.words == "confirmed by A. Boateng"
    assert step.say(release, step.code).codes == (step.code,)
    assert step.now.words == "released by A. Boateng"
    told = [(event.by, event.before, event.after) for event in history(record, step.code) if event.what == "state"]
    assert told == [("A. Boateng", "", "confirmed"), ("A. Boateng", "confirmed", "released")]


@pytest.mark.parametrize(
    ("reached", "what", "says"),
    [
        ("entered", confirm, "is entered and cannot be confirmed: it is not marked yet"),
        ("provisional", confirm, "is provisional (open: LABEL) and cannot be confirmed: settle what is open first"),
        ("provisional", release, "is provisional (open: LABEL) and cannot be released: settle what is open first"),
        ("marked", release, "is marked and cannot be released: confirm it first"),
        ("marked", take_back, "is marked and cannot be taken back: it is neither confirmed nor released"),
        ("confirmed", confirm, "is confirmed by A. Boateng and cannot be confirmed: it is confirmed already"),
        ("released", confirm, "is released by A. Boateng and cannot be confirmed: it is released already"),
        ("released", release, "is released by A. Boateng and cannot be released: it is released already"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("named", [True, False])
def test_a_step_out_of_turn_is_refused_in_one_line(step, sitting, reached: str, what, says: str, named: bool) -> None:
    label = first_label(sitting)
    step.enter("900")
    if reached == "provisional":
        step.mark(Mark(label=label, marks=0, of=2, how="unknown", why="See the working."))
    elif reached != "entered":
        step.mark()
    if reached in {"confirmed", "released"}:
        step.say(confirm)
    if reached == "released":
        step.say(release)
    before = step.now
    with pytest.raises(RecordRefuses, match=f"^{re.escape(f'{step.code} {says}')}$".replace("LABEL", re.escape(label))):
        step.say(what, *([step.code] if named else []), **({"reason": "an error"} if what is take_back else {}))
    assert step.now == before


def test_of_all_scripts_those_that_can_are_confirmed_and_the_others_told(step, record, sitting, later, written) -> None:
    more = {"assessor": "J. Marsh", "role": "first", "source": "x.xlsx", "at": later(1)}
    enter_scripts(record, sitting.code, [written(sitting.papers[1], "7")], [], **more)
    step.enter("900")
    step.mark()
    moved = step.say(confirm)
    assert (moved.codes, [(one.code, one.state) for one in moved.left]) == (
        (step.code,), [(sitting.papers[1].code, "entered")],
    )  # fmt: skip


def test_a_script_that_was_not_handed_in_is_refused(step, sitting) -> None:
    with pytest.raises(RecordRefuses, match=f"no script of the sitting {sitting.code} was handed in yet"):
        step.say(confirm)
    with pytest.raises(RecordRefuses, match=f"no script of the paper {sitting.papers[2].code} was handed in"):
        step.say(confirm, sitting.papers[2].code)


def test_a_confirmation_lapses_with_a_later_mark(step, sitting) -> None:
    step.enter("900")
    step.mark()
    step.say(confirm)
    step.mark(earned=0)
    assert step.now.state == "marked"
    with pytest.raises(RecordRefuses, match="confirm it first"):
        step.say(release)


@pytest.fixture
def released(step):
    step.enter("900")
    step.mark()
    step.say(confirm)
    step.say(release)
    return step


def test_an_answer_under_a_released_mark_does_not_change(released, sitting, record) -> None:
    label = first_label(sitting)
    with pytest.raises(
        RecordRefuses, match=re.escape(f"of {released.code} are released, and {label} would change from `900` to `910`")
    ):
        released.enter("910")
    assert next(mark.marks for mark in marks_of(record, sitting.code, "first")[0].marks) == 1


def test_a_released_mark_does_not_come_out_otherwise_by_itself(released, sitting, record) -> None:
    released.mark(earned=2)
    assert {mark.marks for mark in marks_of(record, sitting.code, "first")[0].marks} == {1}
    assert released.now.changes == ()


@pytest.mark.each_database
def test_a_released_mark_changes_by_a_decision_and_says_so(released, sitting) -> None:
    label = first_label(sitting)
    released.enter("900", decisions=[released.decided(label, 2)])
    released.mark(Mark(label=label, marks=2, of=2, how="decided", why="Method shown. (Worked out: 1. Right.)"))
    [change] = released.now.changes
    assert (change.label, change.before, change.after, change.of, change.reason, change.day) == (
        label, 1, 2, 2, "Method shown.", "2026-01-05",
    )  # fmt: skip
    assert released.now.words == f"released by A. Boateng, changed since: {label}"


def test_a_mark_that_was_changed_and_changed_back_is_as_it_was(released, sitting) -> None:
    label = first_label(sitting)
    for marks in (2, 1):
        released.mark(Mark(label=label, marks=marks, of=2, how="decided", why="Method shown."))
    assert released.now.changes == ()


@pytest.mark.each_database
def test_a_release_is_taken_back_for_a_reason_and_what_changed_is_told_when_it_is_released_again(
    released, sitting, record
) -> None:
    with pytest.raises(RecordRefuses, match="taken back for a reason: write it"):
        released.say(take_back, reason="")
    released.say(take_back, reason="the wrong row was typed")
    assert released.now.state == "marked"
    released.enter("910")
    released.mark(earned=2)
    released.say(confirm)
    released.say(release)
    assert {(change.before, change.after) for change in released.now.changes} == {(1, 2)}
    told = [(event.after, event.reason) for event in history(record, released.code) if event.what == "state"]
    assert told == [
        ("confirmed", ""), ("released", ""), ("taken back", "the wrong row was typed"), ("confirmed", ""), ("released", ""),
    ]  # fmt: skip


def test_a_paper_handed_in_again_starts_anew_beside_what_was_released(released, sitting) -> None:
    released.enter("910", status="resubmitted")
    assert (released.now.attempt, released.now.state) == (2, "entered")
    released.mark(earned=2, status="resubmitted")
    assert released.now.words == "marked"


def test_a_lapsed_decision_is_open_until_it_is_decided_again(step, sitting) -> None:
    label = first_label(sitting)
    step.enter("900", decisions=[step.decided(label, 2)])
    step.enter("910")
    step.mark()
    assert step.now.words == f"provisional (open: {label})"
    step.enter("910", decisions=[step.decided(label, 1, "a slip in the last line")])
    assert step.now.words == "marked"


def test_a_cell_that_two_typed_differently_is_open_until_it_is_settled(step, record, sitting, later) -> None:
    label = first_label(sitting)
    step.enter("900")
    step.mark()

    def typed(text: str, seen: str, *, settles: bool = False) -> None:
        cell = TypedCell(code=step.code, attempt=1, label=label, text=text, seen=seen, settles=settles)
        own = labels(sitting.papers[0])
        type_cell(record, sitting.code, cell, own, assessor="A. Boateng", role="first", at=later(30))

    typed("910", "")
    assert step.now.words == f"provisional (open: {label})"
    typed("900", "900", settles=True)
    assert step.now.words == "marked"


@pytest.mark.each_database
def test_an_answer_that_was_typed_since_is_open_until_it_is_marked(step, sitting) -> None:
    label = first_label(sitting)
    step.enter("900")
    step.mark()
    step.say(confirm)
    step.enter("910")
    assert step.now.words == f"provisional (open: {label})"
    step.mark()
    assert step.now.words == "marked"


def test_the_second_markers_marks_are_no_state(step, record, sitting, later, written, marked) -> None:
    paper = sitting.papers[0]
    more = {"assessor": "Q. Adeyemi", "role": "second", "source": "x.xlsx", "at": later(1)}
    enter_scripts(record, sitting.code, [written(paper, "900")], [], **more)
    keep_marks(record, sitting.code, [marked(paper)], by="Q. Adeyemi", role="second", at=later(2))
    assert script_states(record, sitting.code) == ()
