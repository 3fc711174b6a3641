"""A sitting marked as long work: the same step as `courseware mark`, and what came of it for its page."""

from __future__ import annotations

from courseware.database.scripts import Entered
from courseware.desk.job_queue import Made, MadeFile
from courseware.files.sitting_files import ALL_FEEDBACK, MARKED, PICTURE, SETTLE
from courseware.files.sitting_folders import SittingFolder
from courseware.marking.mark import Marked
from courseware.words import count
from courseware.workflows.mark_sitting import MarkOptions, NothingToMark, mark_sitting
from courseware.workflows.watch import Watch

_FILES = (
    (ALL_FEEDBACK, "to print and hand back: a sheet for each learner"),
    (f"{PICTURE}.pdf", "for yourself: the class on two sides"),
    (f"{PICTURE}.xlsx", "for yourself: every figure of it"),
    (SETTLE, "what waits for a look, to fill in away from the desk"),
)


def mark_and_tell(
    where: SittingFolder, watch: Watch, *, assessor: str, names: bool, processes: int, sheet: str | None = None
) -> Made:
    """Marks what is in the record, with what was changed in the sitting's own marking sheet, as the command does.

    With `sheet`, the path of a workbook filled in away from the desk, that is read in its place.
    """
    code = where.sitting.code

    def told(entered: Entered, marked: Marked) -> None:
        if entered.left:
            left = count(len(entered.left), "cell")
            watch.note(f"{left} of the marking sheet left alone: something else was typed here since.")

    options = MarkOptions(assessor=assessor, names=names, processes=processes)
    grid, waiting = f"/sittings/{code}/grid", f"/sittings/{code}/waiting"
    try:
        done = mark_sitting(where, sheet, (), options, watch, when_marked=told)
    except NothingToMark:
        return Made(says="Nothing is typed in yet, so there is nothing to mark.", onward=(("Type answers in", grid),))
    absent = sum(paper.status == "absent" for paper in done.marked.papers)
    says = f"{count(len(done.marked.papers) - absent, 'script')} marked"
    says += f", {absent} absent." if absent else "."
    open_answers = done.to_look_at + len(done.marked.questions)
    if open_answers:
        says += f" {count(open_answers, 'answer')} {'waits' if open_answers == 1 else 'wait'} for a look."
    look = (("Look at what waits", waiting),) if open_answers else ()
    picture = (("See the class picture", f"/sittings/{code}/picture"), ("Back to the grid", grid))
    return Made(says=says, files=files_of_marking(where), onward=(*look, *picture))


def files_of_marking(where: SittingFolder) -> tuple[MadeFile, ...]:
    """What marking left in a sitting's folder, each with what it is for."""
    folder = where.path / MARKED
    return tuple(MadeFile(path=folder / name, use=use) for name, use in _FILES if (folder / name).is_file())
