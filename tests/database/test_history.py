"""The history of a paper reads as what happened: what, from what to what, why, by whom, when."""

from __future__ import annotations

import pytest

from courseware.database.errors import RecordRefuses
from courseware.database.history import history
from courseware.database.kept_marks import keep_marks
from courseware.database.scripts import enter_scripts
from courseware.marking.marks import Decision, Mark, MarkedPaper, NamedSlip


@pytest.mark.each_database
def test_a_paper_from_issue_to_decision(record, sitting, later, written) -> None:
    paper = sitting.papers[0]
    label, second = list(written(paper).cells)[:2]
    slip = NamedSlip(key="x/1", says="The joint was left out")

    def enter(minute, *cells, decisions=(), role="first", assessor="J. Marsh", status=""):
        script = written(paper, *cells, status=status, line=4)
        more = {"assessor": assessor, "role": role, "source": "sheet.xlsx", "at": later(minute)}
        enter_scripts(record, sitting.code, [script], decisions, **more)

    def keep(minute, mark, role="first", by="J. Marsh", status=""):
        one = MarkedPaper(code=paper.code, status=status, marks=(mark,))
        keep_marks(record, sitting.code, [one], by=by, role=role, at=later(minute))

    enter(1, "900")
    keep(1, Mark(label=label, marks=1, of=2, how="slip", why="Ten short.", slips=(slip,)))
    enter(2, "910", "7")
    keep(2, Mark(label=label, marks=2, of=2, how="right", why="Right."))
    enter(3, "910", role="second", assessor="P. Reed")
    enter(
        4,
        "910",
        "7",
        decisions=[Decision(code=paper.code, label=second, marks=1, reason="method shown", comment="Good.")],
    )
    enter(5, "911", status="resubmitted")
    keep(5, Mark(label=label, marks=0, of=2, how="unknown", why="See the working."), status="resubmitted")

    told = [(e.at, e.by, e.what, e.before, e.after, e.reason) for e in history(record, paper.code)]
    place = "sheet.xlsx, row 4"
    assert told == [
        (later(0), "", "paper", "", "taken into the record", ""),
        (later(1), "J. Marsh", "script", "", "entered", place),
        (later(1), "J. Marsh", f"{label} as written", "", "900", place),
        (later(1), "J. Marsh", f"mark for {label}", "", "1 of 2 (slip: The joint was left out)", "Ten short."),
        (later(2), "J. Marsh", f"{label} as written", "900", "910", place),
        (later(2), "J. Marsh", f"{second} as written", "", "7", place),
        (later(2), "J. Marsh", f"mark for {label}", "1 of 2 (slip: The joint was left out)", "2 of 2 (right)", "Right."),
        (later(3), "P. Reed", "second marker: script", "", "entered", place),
        (later(3), "P. Reed", f"second marker: {label} as written", "", "910", place),
        (later(4), "J. Marsh", f"decision on {second}", "", "1 mark; comment: Good.", "method shown"),
        (later(5), "J. Marsh", "script (attempt 2)", "", "entered", place),
        (later(5), "J. Marsh", "status (attempt 2)", "", "resubmitted", place),
        (later(5), "J. Marsh", f"{label} as written (attempt 2)", "", "911", place),
        (later(5), "J. Marsh", f"mark for {label} (attempt 2)", "", "0 of 2 (unknown)", "See the working."),
    ]  # fmt: skip


def test_a_paper_that_is_not_there_is_told(record) -> None:
    with pytest.raises(RecordRefuses, match="has no paper AAAA-AAAA-A"):
        history(record, "AAAA-AAAA-A")
