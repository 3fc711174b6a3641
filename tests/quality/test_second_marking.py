"""Two markers: their differences part by part, how far they agree, and nothing of one before the other is done."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import openpyxl
import pytest
from hypothesis import given
from hypothesis import strategies as st
from sklearn.metrics import cohen_kappa_score

from courseware.marking.marks import Mark, MarkedPaper
from courseware.marking.script_sheet import read_scripts
from courseware.quality.second_marking import compare
from courseware.quality.second_marking_sheet import second_sheet, second_workbook

LABELS = ("1a", "1b", "1c")


def paper(code: str, *marks: int, how: str = "right", status: str = "", of: int = 4) -> MarkedPaper:
    """A marked paper; its parts are 1a, 1b and so on."""
    return MarkedPaper(
        code=code,
        status=status,
        marks=tuple(
            Mark(label=label, marks=got, of=of, how=how, why=f"{got} earned.", written=f"{label} = {got}")
            for label, got in zip(LABELS, marks, strict=False)
        ),
    )


def asked(one: MarkedPaper, label: str) -> MarkedPaper:
    """The paper with one part still put to a person."""
    return replace(one, marks=tuple(replace(m, how="asked", marks=0) if m.label == label else m for m in one.marks))


def text_of(sheet) -> str:
    """Everything a sheet says."""
    lines = [line for block in sheet.blocks for line in block.text]
    cells = [cell for block in sheet.blocks if block.table for row in block.table.rows for cell in row]
    return "\n".join([*lines, *cells])


# ------------------------------------------------------------------ differences


def test_differences_are_listed_by_paper_and_part_with_both_marks_and_reasons() -> None:
    found = compare([paper("A", 4, 2, 1), paper("B", 3, 3, 3)], [paper("B", 3, 3, 1), paper("A", 4, 1, 1)])
    assert [(one.code, one.first.label, one.first.marks, one.second.marks) for one in found.differences] == [
        ("A", "1b", 2, 1),
        ("B", "1c", 3, 1),
    ]
    assert (found.differences[0].first.why, found.differences[0].second.why) == ("2 earned.", "1 earned.")
    assert (found.compared, found.parts) == (("A", "B"), 6)


def test_agreement_is_taken_over_all_parts_compared() -> None:
    """By counting: 4 of 6 parts alike, 5 of 6 within one, second less first is −1 and −2 over 6 parts."""
    found = compare([paper("A", 4, 2, 1), paper("B", 3, 3, 3)], [paper("A", 4, 1, 1), paper("B", 3, 3, 1)]).agreement
    assert found.exact.value == pytest.approx(4 / 6)
    assert found.within_one.value == pytest.approx(5 / 6)
    assert found.mean_difference == pytest.approx(-3 / 6)


@given(st.lists(st.tuples(*[st.integers(0, 4)] * 6), min_size=2, max_size=12))
def test_kappa_is_that_of_scikit_learn(marks) -> None:
    """Oracle: sklearn.metrics.cohen_kappa_score (scikit-learn, BSD)."""
    first = [paper(str(number), *one[:3]) for number, one in enumerate(marks)]
    second = [paper(str(number), *one[3:]) for number, one in enumerate(marks)]
    pairs = [pair for one in marks for pair in zip(one[:3], one[3:], strict=True)]
    found = compare(first, second).agreement
    for index, weights in ((found.kappa, None), (found.kappa_linear, "linear"), (found.kappa_quadratic, "quadratic")):
        if index is not None:
            left, right = zip(*pairs, strict=True)
            assert index.value == pytest.approx(cohen_kappa_score(left, right, labels=range(5), weights=weights))


@given(st.permutations(range(6)))
def test_the_order_of_the_second_markers_papers_makes_no_difference(order) -> None:
    first = [paper(str(number), number % 5, 1, 2) for number in range(6)]
    second = [paper(str(number), 1, number % 3, 2) for number in range(6)]
    assert compare(first, [second[number] for number in order]) == compare(first, second)


def test_each_script_of_a_paper_is_compared_with_its_own() -> None:
    first = [paper("A", 1, 1, 1), paper("A", 4, 4, 4, status="resubmitted")]
    second = [paper("A", 1, 1, 1), paper("A", 4, 4, 3, status="resubmitted")]
    (one,) = compare(first, second).differences
    assert (one.attempt, one.first.label) == (2, "1c")


# ------------------------------------------------------------------ blind


def test_a_paper_that_the_second_marker_has_not_finished_tells_nothing_of_the_first() -> None:
    first = [paper("A", 4, 2, 1), paper("B", 3, 3, 3)]
    for unfinished in (asked(paper("A", 0, 0, 0), "1b"), paper("A", 0, 0)):
        found = compare(first, [unfinished, paper("B", 3, 3, 3)])
        assert found.waiting == ("A",)
        assert found.compared == ("B",)
        assert found.parts == found.agreement.n == 3
        assert not found.differences


def test_a_paper_that_the_first_marker_has_not_finished_is_named() -> None:
    found = compare([asked(paper("A", 4, 2, 1), "1a")], [paper("A", 1, 1, 1), paper("C", 1, 1, 1)])
    assert (found.unfinished, found.compared) == (("A", "C"), ())


def test_absent_learners_and_papers_that_only_the_first_has_are_left_out() -> None:
    away = paper("B", status="absent")
    found = compare([paper("A", 1, 1, 1), away, paper("C", 1, 1, 1)], [away, paper("C", 1, 1, 1)])
    assert found.compared == ("C",)
    assert found.waiting == found.unfinished == ()


def test_the_sheet_shows_no_mark_of_the_first_before_the_second_is_done(dealt) -> None:
    sitting = dealt("opening_sizes", exercises=2)
    found = compare([paper("A", 4, 2, 1)], [asked(paper("A", 0, 0, 0), "1b")])
    text = text_of(second_sheet(found, sitting, "2026-01-06", {}))
    assert "nothing of either is shown" in text
    assert "earned" not in text
    assert "1b =" not in text


# ------------------------------------------------------------------ sheet and workbook


@pytest.fixture
def sitting(dealt):
    return dealt("opening_sizes", exercises=2)


@pytest.fixture
def differing(sitting):
    """The first paper of the sitting, marked differently in its first part; what was typed looks like a formula."""
    issued = sitting.papers[0]
    parts = [part for exercise in issued.exercises for part in exercise.parts]
    ours = [Mark(label=p.label, marks=p.marks, of=p.marks, how="right", why="Right.", written="=1+1") for p in parts]
    named = replace(ours[0], marks=0, why=f"{issued.learner.name} wrote nothing.", how="decided")
    first = MarkedPaper(code=issued.code, status="", marks=tuple(ours))
    second = MarkedPaper(code=issued.code, status="", marks=(named, *ours[1:]))
    return compare([first], [second])


def test_what_was_typed_is_shown_and_never_worked_out(sitting, differing) -> None:
    book = openpyxl.load_workbook(BytesIO(second_workbook(differing, sitting, "2026-01-06", {})))
    sheet = book["Decisions"]
    headings = [cell.value for cell in sheet[1]]
    assert headings[:5] == ["code", "part", "marks", "reason", "comment"]
    typed = sheet.cell(2, headings.index("first: typed") + 1)
    assert (typed.value, typed.data_type, typed.quotePrefix) == ("=1+1", "s", True)


def test_the_workbook_is_taken_back_as_decisions(sitting, differing) -> None:
    book = openpyxl.load_workbook(BytesIO(second_workbook(differing, sitting, "2026-01-06", {})))
    book["Decisions"]["C2"] = 1
    book["Decisions"]["D2"] = "Agreed on the working"
    written = BytesIO()
    book.save(written)
    read = read_scripts(written.getvalue(), "two-markers.xlsx", sitting)
    (decided,) = read.decisions
    assert (decided.code, decided.marks, decided.reason) == (sitting.papers[0].code, 1, "Agreed on the working")
    assert read.scripts == ()


def test_a_learners_name_in_a_reason_gives_way_to_the_code(sitting, differing) -> None:
    learner = sitting.papers[0].learner.name
    text = text_of(second_sheet(differing, sitting, "2026-01-06", {}))
    assert learner not in text
    assert f"{sitting.papers[0].code} wrote nothing." in text
    named = text_of(second_sheet(differing, sitting, "2026-01-06", {sitting.papers[0].code: learner}))
    assert f"{learner} wrote nothing." in named


def test_few_papers_are_told_to_be_few(sitting, differing) -> None:
    assert "1 paper says little" in text_of(second_sheet(differing, sitting, "2026-01-06", {}))


def test_the_same_differences_give_the_same_bytes(sitting, differing) -> None:
    one, other = (second_workbook(differing, sitting, "2026-01-06", {}) for _ in range(2))
    assert one == other
