"""The files that the program writes into a sitting's folder: whoever writes, finds or deletes one goes by these."""

from __future__ import annotations

from courseware.papers.sitting import Sitting

SITTING = "sitting.json"
LEARNERS, TUTOR = "for-learners", "for-tutor"  # rooms, each a folder
MARKED = "marked"  # what comes of marking, once there is any
ALL_PAPERS, ALL_KEYS, GRID = f"{LEARNERS}/all-papers.pdf", f"{TUTOR}/all-keys.pdf", f"{TUTOR}/class-grid.pdf"
SHEET, SECOND_SHEET, DECISIONS = "marking-sheet.xlsx", "second-marking-sheet.xlsx", "decisions.xlsx"  # the tutor's
ALL_FEEDBACK, PICTURE, SETTLE = "all-feedback.pdf", "class-picture", "to-settle.xlsx"  # marked


DEALT, APPROVED = "for-approval.json", "assurer-sheet.pdf"  # before papers are printed; the sheet stays with them


def paper_file(code: str) -> str:
    """A learner's paper, by its path in the folder."""
    return f"{LEARNERS}/paper-{code}.pdf"


def key_file(code: str) -> str:
    """The key to a learner's paper, by its path in the folder."""
    return f"{TUTOR}/key-{code}.pdf"


def word_file(pdf: str) -> str:
    """The editable copy beside a paper or key, by its path in the folder."""
    return f"{pdf.removesuffix('.pdf')}.docx"


def issued_files(code: str) -> tuple[str, ...]:
    """What is written for one learner when papers are issued, by their paths in the folder."""
    pdfs = (paper_file(code), key_file(code))
    return (*pdfs, *(word_file(pdf) for pdf in pdfs))


def feedback_file(code: str) -> str:
    """A learner's feedback sheet, by its path in the folder."""
    return f"{MARKED}/feedback-{code}.pdf"


def sheet_files() -> tuple[str, ...]:
    """The workbooks that hold every learner's answers or decisions, by their paths in the folder."""
    return tuple(f"{TUTOR}/{name}" for name in (SHEET, SECOND_SHEET, DECISIONS))


def own_files(sitting: Sitting) -> frozenset[str]:
    """Every file that the program writes into a sitting's folder, by its path in it."""
    each = (name for paper in sitting.papers for name in (*issued_files(paper.code), feedback_file(paper.code)))
    marked = (f"{MARKED}/{name}" for name in (ALL_FEEDBACK, f"{PICTURE}.pdf", f"{PICTURE}.xlsx", SETTLE))
    return frozenset({SITTING, ALL_PAPERS, ALL_KEYS, GRID, *each, *marked, *sheet_files(), f"{TUTOR}/{APPROVED}"})
