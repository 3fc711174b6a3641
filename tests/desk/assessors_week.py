"""What assessors do in a week at the desk, step by step, with any hand: after `tutors_week` has its papers marked."""

from __future__ import annotations

import re
from pathlib import Path

from tests.desk.hands import AtTheDesk, Mouse, click_at
from tests.desk.tutors_week import LATE, NAMES, TITLE, sitting
from tests.workflows.filled_marks import fill, filled_in

CRITERIA = """\
criteria:
  - {code: B1, says: Works out piers, evidence: [{topic: Piers of ours, exercise: length-of-a-pier}]}
"""


def sits_down(at: AtTheDesk, who: str) -> None:
    """Somebody else works under their own name."""
    at.follow("Settings")
    at.write("Your name", who)
    at.follow("Work under this name")
    assert who in at.look("Settings")


def another_marks_and_takes_a_mark_back(at: AtTheDesk) -> None:
    sits_down(at, "P. Dunn")
    at.follow("Keep", f"{TITLE}, Level 2")
    at.look("Other people’s marks")
    at.follow("Mark here, as the second marker")
    scripts = [row.inner_text() for row in at.page.locator("#grid tbody th").all()]
    assert len(scripts) == 4
    if at.scripts:
        cells = at.page.locator("#grid tbody td")
        at.page.locator("#beside h2").wait_for()
        for place, text in ((0, "1"), (0, "- wrong script"), (0, "0 not shown"), (1, "1"), (2, "1"), (3, "2")):
            if isinstance(at.hand, Mouse):
                click_at(at.page, cells.nth(place))
            at.page.keyboard.type(text)
            at.page.keyboard.press("Enter")
            at.page.locator("#saved", has_text="All saved").wait_for()
            if place == 0 and not isinstance(at.hand, Mouse):
                at.page.keyboard.press("Shift+Enter") if text != "0 not shown" else None
    else:
        for code, texts in zip(scripts, (("1", "- wrong script", "0 not shown"), ("1",), ("1",), ("2",)), strict=True):
            at.follow(code)
            for text in texts:
                at.write("Marks for 1a, of 2", text)
                at.follow("Save")
                assert "1 mark saved." in at.says(), at.says()
            at.follow("The grid")
    at.look("Second marking")


def what_two_gave_differently_is_settled(at: AtTheDesk) -> None:
    at.follow("How far two agree, and what is to settle")
    told = at.look("Two markers")
    assert "4 parts" in told
    assert "1 part differently" in told
    at.write("Marks agreed, of 2", "1")
    at.write("Reason", "The slip earns its mark")
    at.follow("Settle")
    assert "Settled: " in at.look("Two markers")
    sits_down(at, "J. Marsh")
    at.follow("Mark", f"{TITLE}")
    at.follow(f"Mark {TITLE}")
    at.done("feedback")


def a_sample_is_drawn_and_its_action_closed(at: AtTheDesk) -> None:
    at.follow("Keep", "Sampling")
    at.write("How many", "1")
    at.follow("See what will be drawn from")
    assert "1 of them will be drawn" in at.look("Sampling")
    at.follow("Draw 1 paper")
    at.done("1 of 4 marked papers")
    [plan] = (at.folder / "output").glob("sampling-plan-*.xlsx")
    filled_in(plan)
    at.follow("Keep", "Results of samples")
    at.give("The workbook that was filled in", plan, sends="See what it says")
    at.look("Results of samples")
    at.follow("Enter 1 result")
    assert "Mark 1a again" in at.look("Results of samples")
    at.hand.press("Close it", exactly=False)
    at.write("What was done", "Marked again")
    at.follow("Close it")
    assert "is closed" in at.look("Results of samples")


def marks_are_confirmed_and_released(at: AtTheDesk) -> None:
    at.follow("See", TITLE)
    at.look("Class picture")
    at.follow("Confirm 4 marked scripts", "Release 4 confirmed scripts")
    assert "4 scripts released" in at.look("Class picture")


def an_appeal_is_heard(at: AtTheDesk, files: Path) -> None:
    code = sitting(at).papers[1].code
    at.follow("Keep", "Appeals", "Show its marked papers")
    at.follow(NAMES[1])
    at.write("Why the learner appeals", "The unit stands in the question")
    at.follow("Open it")
    at.done(f"An appeal on {code} is open")
    [blank] = (at.folder / "output").glob(f"appeal-{code}-*/re-mark-{code}.xlsx")
    outcome = {"outcome": "changed", "date": "2026-12-01", "reason": "the working was sound"}
    sheet = fill(blank, str(files / "again.xlsx"), outcome=outcome)
    at.follow("Keep", "Appeals", NAMES[1])
    at.write("Who marked again", "R. Holt")
    at.give("The workbook that was filled in", sheet, sends="See what it says")
    assert "The marks are changed to those of the re-mark." in at.look("Appeal")
    at.follow("Enter the outcome")
    at.done(f"The appeal on {code} is closed")


def register_criteria_and_times_are_kept(at: AtTheDesk) -> None:
    at.follow("Keep", TITLE)
    assert "absent" in at.look("Register of")
    at.hand.pick("Who", LATE)
    at.hand.pick("What happened", "hands in again")
    at.follow("Enter")
    assert "Nothing was entered" in at.look("Register of"), "it needs its day"
    at.follow("Settings")
    at.hand.press("The whole file", exactly=False)
    at.write("The centre's settings", f"name: Brookfield Trades College\nfirst_marker: program\n{CRITERIA}")
    at.follow("Save the text")
    at.follow("Keep", "Criteria")
    assert "B1 Works out piers" in at.look("Criteria")
    at.follow("Map them")
    at.done("1 criterion")
    at.follow("Keep", "How long")
    at.hand.pick("What", "names")
    at.write("Months after the sitting", "24")
    at.follow("See what would be past")
    assert "names will be kept 24 months" in at.look("How long it is kept")
    at.follow("Keep it for so long")
    at.look("How long it is kept")


def one_learners_data_is_given_out_and_deleted(at: AtTheDesk) -> None:
    at.follow("Keep", "One learner")
    at.write("Who", "0004")
    at.follow("Find")
    at.look(NAMES[3])
    at.follow("Write it out")
    at.done("Everything that the record has of this learner")
    at.follow("Keep", "One learner")
    at.write("Who", "0004")
    at.follow("Find", "See what would be deleted")
    told = at.look("Delete a learner")
    assert re.search(r"To be deleted: \d paper", told), told
    at.hand.press("I am sure: delete all of this for good")
    at.follow("Delete")
    at.done("eleted")
    assert all(paper.learner.name != NAMES[3] for paper in sitting(at).papers)
