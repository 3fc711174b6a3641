"""Feedback printed for a class: each learner's own, on one sheet, from a sitting's file and the indices of its spaces."""

from __future__ import annotations

from array import array
from io import BytesIO

from pypdf import PdfReader

from courseware.marking.marks import Mark, MarkedPaper
from courseware.papers.sitting_file import write_sitting
from courseware.printing.feedback_sheets import Handback, print_feedback


def test_each_learner_gets_a_sheet_of_their_own(composed, space_of) -> None:
    sitting, sources = composed("opening_sizes", 3)
    indices = {name: array("L", space_of(*pair).indices) for name, pair in sources.exercises.items()}
    handed_back = [
        Handback(
            place=place,
            marked=MarkedPaper(
                code=paper.code,
                status="",
                marks=tuple(Mark(label=p.label, marks=0, of=p.marks, how="blank", why="") for p in paper.parts),
            ),
            had=frozenset(),
            earlier=(),
            marked_by=f"Marked by marker {place}.",
        )
        for place, paper in enumerate(sitting.papers)
    ]
    assert [str(one) for one in handed_back] == [f"feedback {n}" for n in range(1, len(handed_back) + 1)]
    printed = dict(print_feedback(write_sitting(sitting), indices, handed_back, 1))
    assert set(printed) == set(handed_back)
    for one, pdf in printed.items():
        pages = [page.extract_text() for page in PdfReader(BytesIO(pdf)).pages]
        assert len(pages) == 2
        assert sitting.papers[one.place].code in pages[0]
        assert f"Marked by marker {one.place}." in " ".join(pages).replace("\n", " ")
