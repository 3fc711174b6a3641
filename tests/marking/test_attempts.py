"""Attempts at a paper: numbered the same wherever they are kept, marked, compared and bound for an audit."""

from __future__ import annotations

import pytest

from courseware.marking.attempts import numbered_attempts
from courseware.marking.mark import mark_scripts
from courseware.marking.marks import Decision, Script


@pytest.mark.parametrize(
    ("handed_in", "attempts"),
    [
        ([], []),
        (["A ", "B late"], [1, 1]),
        (["A ", "A resubmitted", "A resubmitted"], [1, 2, 3]),
        (["A ", "B ", "A resubmitted", "B resubmitted"], [1, 1, 2, 2]),
        (["A absent", "A resubmitted"], [1, 2]),
        (["A resubmitted"], [2]),  # its first is not in this sheet
    ],
)
def test_a_resubmitted_script_is_the_next_attempt_at_its_own_paper(handed_in: list[str], attempts: list[int]) -> None:
    scripts = [Script(code=said[0], cells={}, status=said[2:], line=line) for line, said in enumerate(handed_in, 2)]
    assert list(numbered_attempts(scripts)) == list(zip(attempts, scripts, strict=True))


def test_a_decision_on_a_second_attempt_stands_where_the_first_is_not_in_the_sheet(composed) -> None:
    sitting, sources = composed("opening_sizes", 1)
    code, label = sitting.papers[0].code, sitting.papers[0].parts[0].label
    again = Script(code=code, cells={label: "no figure"}, status="resubmitted", line=2)
    decision = Decision(code=code, label=label, marks=1, reason="the method was shown", attempt=2)
    [paper] = mark_scripts(sitting, [again], [decision], sources).papers
    assert [(mark.marks, mark.how) for mark in paper.marks if mark.label == label] == [(1, "decided")]
