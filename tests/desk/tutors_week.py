"""What a tutor does in a week at the desk, step by step, with any hand: each step takes up where the one before ended."""

from __future__ import annotations

from pathlib import Path

from courseware.files.sitting_folders import find_folders
from courseware.papers.sitting import Sitting
from courseware.workflows.own_banks import NEW_BANK
from tests.desk.hands import AtTheDesk, Mouse, click_at, keyed
from tests.practice.saved_practices import as_bytes, saved

LONG = "Ferdinand Maximilian Algernon Wolstenholme-Featherstonehaugh of Upper Dunstable"  # 79 characters
LATE = "محمد الحسن"
NAMES = ("O'Brien-Smythe, Zoë", 'Seán "Shay" Ó Néill', LONG, "José Muñoz")  # invented, as is LATE
# As a college's own program exported it: semicolons, cp1252, marks doubled, a level that is none, a last line that sums up.
LIST = (
    "Name;ID;Level;Paper\n"
    f"{NAMES[0]};0001;2;large-18\n"
    '"Seán ""Shay"" Ó Néill";0002;1;cream\n'
    f"{LONG};0003;1;\n"
    f"{NAMES[3]};0004;9;\n"
    "\n"
    "Total;4;;\n"
).encode("cp1252")
TITLE = "Piers, week 3"


def sitting(at: AtTheDesk) -> Sitting:
    """The sitting of the week."""
    found = (one.sitting for one in find_folders([at.folder / "output"])[0])
    return next(one for one in found if one.title == TITLE)


def a_folder_is_made_and_settings_filled_in(at: AtTheDesk) -> None:
    at.look("The folder of work")
    at.write("Its name, in", at.folder.name, exactly=False)
    at.follow("Make it and work in it")
    assert "First make papers" in at.look("What to do")
    at.follow("Settings")
    at.write("Your name", "J. Marsh")
    at.follow("Work under this name")
    at.write("Name of the centre", "Brookfield Trades College")
    at.hand.pick("Second marks compared with", "program")
    at.follow("Save")
    assert "Saved. New papers go by it" in at.look("Settings")


def a_bank_is_written_with_a_fault_and_proved(at: AtTheDesk) -> None:
    at.follow("Banks")
    at.look("Banks")
    at.write("Its file's name", "piers")
    at.follow("Begin it")
    at.look("A topic of my own")
    at.write("The bank’s text", NEW_BANK.replace("level: 1", "level: 9"))
    if at.scripts:
        at.page.locator("#faults li").first.wait_for()
    else:
        at.follow("Look at it")
    assert "level 9; expected 1, 2 or 3" in at.look("A topic of my own")
    at.write("The bank’s text", NEW_BANK.replace("A topic of my own", "Piers of ours"))
    if at.scripts:
        at.page.locator("#faults", has_text="No faults.").wait_for()
        at.page.keyboard.press("Escape")  # out of the text: Tab goes on
        at.hand.press("Save")
        at.page.locator("#said", has_text="Saved.").wait_for()
        at.page.locator("#proof", has_text="All 1 exercise proved").wait_for(timeout=60_000)
    else:
        at.follow("Save")
        at.follow("Prove it")
        at.done("All 1 exercise proved")


def papers_are_made_from_a_messy_list(at: AtTheDesk, files: Path) -> None:
    (files / "level 2.csv").write_bytes(LIST)
    at.follow("Make papers", "Make new papers")
    at.look("Who gets papers?")
    at.give("Drop a class list here, or choose its file", files / "level 2.csv", sends="" if at.scripts else "Read it")
    told = at.look("Who gets papers?")
    assert "4 learners" in told
    assert "1 row to be mended" in told
    assert "Total" in told, "what was left out is told"
    at.follow(f"Mend line 5, {NAMES[3]}")
    at.look("Who gets papers?")
    at.write("Level", "1")
    at.follow("Save")
    at.follow("On to the exercises")
    at.look("Choose a topic")
    at.follow("Piers of ours", exactly=False)
    before = at.page.locator(".question").first.inner_text()
    if at.scripts:
        at.hand.press("Another variant", exactly=False)
        at.page.wait_for_function("was => document.querySelector('.question').innerText !== was", arg=before)
        at.hand.press("Put it on the paper", exactly=False)
        at.page.locator("#totals", has_text="1 exercise").wait_for()
    else:
        at.follow("Another variant", exactly=False)
        assert at.page.locator(".question").first.inner_text() != before
        at.follow("Put it on the paper", exactly=False)
    assert "1 exercise, 2 marks" in at.look("Piers of ours")
    at.follow("Put them in order")
    at.look("In this order")
    at.follow("On to the settings")
    at.write("Title", TITLE)
    at.follow("Save, and look at everything once more")
    assert "4 learners" in at.look(TITLE)
    at.follow("Make the papers")
    at.page.reload()  # the work goes on, and so does its page
    at.done("4 papers made, each with its key.")
    at.look("Papers")
    at.follow(f"On to {TITLE}", exactly=False)
    told = at.look(TITLE)
    assert all(name in told for name in (*NAMES, "large-18", "cream"))
    assert at.file("All papers").startswith(b"%PDF-")


def somebody_joins_late(at: AtTheDesk) -> None:
    at.hand.press("Somebody joins late")
    at.write("Name", LATE)
    at.follow("Make a paper")
    at.done(LATE)
    at.follow(f"Back to {TITLE}", exactly=False)
    assert LATE in at.look(TITLE)


def answers(at: AtTheDesk) -> list[str]:
    """Two leave the joint of the pier's end on, one writes what does not read, one is right, the late one is absent."""
    right = [int(paper.parts[0].answer) for paper in sitting(at).papers]
    return [str(right[0] + 10), str(right[1] + 10), "see back", str(right[3]), ""]


def answers_are_typed(at: AtTheDesk) -> None:
    at.follow("Type in the answers")
    rows = at.page.locator("#grid tbody tr")
    if not at.scripts:
        for name, text in zip((*NAMES, LATE), answers(at), strict=True):
            if not at.page.locator("#grid").count():
                at.follow("The grid")
            at.follow(rows.nth([*NAMES, LATE].index(name)).locator("th").inner_text())
            at.look(name)
            if text:
                at.write("1a ", text, exactly=False)
            else:
                at.hand.pick("Status", "absent")
            at.follow("Save")
            assert "1 cell saved." in at.says()
        at.follow("The grid")
        at.look(TITLE)
        return
    if isinstance(at.hand, Mouse):
        for place, text in enumerate(answers(at)):
            click_at(at.page, rows.nth(place).locator("td").nth(1 if text else 0))
            at.page.keyboard.type(text or "a")
    else:
        at.page.locator("#beside h2").wait_for()
        keyed(at.page, answers(at)[:4])
        at.page.keyboard.press("ArrowLeft")
        at.page.keyboard.type("a")
    if isinstance(at.hand, Mouse):
        click_at(at.page, rows.nth(0).locator("td").nth(1))
    else:
        at.page.keyboard.press("ArrowRight")
    at.page.locator("#saved", has_text="All saved").wait_for()
    assert "absent" in rows.nth(4).inner_text()
    at.look(TITLE)


def what_waits_is_decided(at: AtTheDesk) -> None:
    at.follow("What waits for a look")
    assert "1 answer that no rule settles" in at.look("What waits for a look")
    at.follow("Look at one after another")
    at.look(LONG)
    at.hand.press(lines_seen(at), exactly=False)
    at.follow("Decide", exactly=False)
    assert f"Decided: {LONG}, 1a: 1 mark." in at.look("What waits for a look")
    at.follow(f"Mark {TITLE}")
    at.done("feedback")
    at.look("Marking")


def lines_seen(at: AtTheDesk) -> str:
    """How the first line of the working that can be ticked begins."""
    return " ".join(at.page.locator("fieldset .choice").first.inner_text().split())[:12]


def the_class_is_seen(at: AtTheDesk) -> None:
    at.follow("See the class picture")
    told = at.look("Class picture")
    assert "Teach first" in told
    assert "1 absent" in told
    at.follow("Its starter on the whiteboard")
    at.look("Ten-minute starter")
    at.follow("Show the answer")
    assert at.page.locator(".answer").inner_text().endswith("mm")
    at.follow("Class picture")
    at.follow(sitting(at).papers[0].code)
    told = at.look(NAMES[0])
    assert "A pier has a brick at both ends" in told
    assert at.file("feedback, to print and hand back").startswith(b"%PDF-")


def a_job_is_made_with_an_impossible_choice_and_observed(at: AtTheDesk) -> None:
    """13 courses do not close: courses of the weave go in threes."""
    at.follow("Job", "A framed panel beside a porch")
    at.look("A framed panel beside a porch")
    at.write("Opening, high, courses", "13")
    if at.scripts:
        at.page.locator("#cannot").wait_for()
    else:
        at.follow("Draw it again")
    assert "courses go in threes" in at.look("A framed panel")
    at.follow("Opening, high: ", exactly=False)
    at.page.get_by_role("img", name="Elevation of the wall").wait_for()
    at.write("What is built", "A panel by the gate")
    at.follow("Save as a new job")
    assert "Saved as a job of your own" in at.look("A panel by the gate")
    at.follow("Print its sheets")
    at.done("sheets")
    assert at.file("job-sheet.pdf").startswith(b"%PDF-")
    at.follow("Job", "A panel by the gate", "Enter what was measured and judged")
    at.look("Results of A panel by the gate")
    at.write("Learner: paper code, reference or name", sitting(at).papers[0].code)
    first = at.page.locator(".measured label").first
    target = first.locator("span").inner_text().partition(" ")[0]
    at.write(" ".join(first.inner_text().split()), target)
    at.follow("Enter it")
    assert "Entered: " in at.look("Results of A panel by the gate")


def practice_is_made_and_read(at: AtTheDesk, files: Path) -> None:
    at.follow("Practise")
    at.look("Practise")
    at.hand.press("Piers of ours (your own)", exactly=False)
    at.follow("Make the page")
    at.done("A page to practise, with 1 kind of question")
    assert at.file("practice.html").startswith(b"<!DOCTYPE html>")
    (files / "amira.json").write_bytes(as_bytes(saved()))
    at.follow("Practise")
    at.give("Files that learners saved", files / "amira.json", sends="Make the sheet")
    at.done("1 learner")
    at.look("")


def somebody_takes_it_again(at: AtTheDesk) -> None:
    at.follow("Make papers", TITLE, exactly=False)
    at.look(TITLE)
    at.hand.press("Somebody takes it again")
    at.hand.press(LATE)
    at.follow("Make the retake")
    at.done("1 paper")
    at.follow("On to Retake", exactly=False)
    at.look(f"Retake: {TITLE}")
