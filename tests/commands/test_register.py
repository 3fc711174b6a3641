"""`courseware register`, `confirm` and `release`: what is shown, and what is refused before anything is entered."""

from __future__ import annotations

from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.piers_sitting import answer, fill, papers, run


@pytest.fixture
def marked(piers_sitting) -> Path:
    """A sitting of four: the first two handed in and right, the others not."""
    one, two, *_ = papers(piers_sitting)
    rows = [{label: answer(paper, label) for label in ("1a", "1b")} for paper in (one, two)]
    assert (
        run("mark", str(piers_sitting), fill(piers_sitting, "in.csv", *rows), "--assessor", "J. Marsh").exit_code == 0
    )
    return piers_sitting


def test_an_issue_is_in_the_register_at_once(piers_sitting) -> None:
    told = run("register", str(piers_sitting), "--names").output.splitlines()
    assert told == [f"{paper['code']}  {paper['learner']['name']}  issued" for paper in papers(piers_sitting)]


def test_from_marked_to_released(marked) -> None:
    one, two, three, four = (paper["code"] for paper in papers(marked))
    late = ("--late", "A3", "--until", "2026-01-12", "--reason", "ill", "--by", "J. Marsh")
    assert run("register", str(marked), *late).output.splitlines() == [
        f"{one}  marked", f"{two}  marked", f"{three}  late: ill; due 2026-01-12", f"{four}  issued",
    ]  # fmt: skip
    assert run("confirm", str(marked), "--by", "J. Marsh").output == "2 scripts confirmed.\n"
    assert run("release", str(marked), "--for", one, "--by", "J. Marsh").output == "1 script released.\n"
    again = run("release", str(marked), "--for", one)
    assert (again.exit_code, again.output) == (
        2, f"{one} is released by J. Marsh and cannot be released: it is released already. Nothing was made.\n",
    )  # fmt: skip
    taken = run("release", str(marked), "--for", one, "--undo", "a wrong total", "--by", "J. Marsh")
    assert taken.output == "1 script taken back.\n"
    assert run("register", str(marked)).output.splitlines()[0] == f"{one}  marked"


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--absent", "A1"), "is handed in, so it is neither absent"),
        (("--absent", "A3"), "is absent for a reason: write it"),
        (("--absent", "A3", "--late", "A4"), "Enter one thing at a time."),
        (("--late", "A3", "--until", "soon", "--reason", "ill"), "soon is not a date; write it as 2026-11-25"),
        (("--withdraw", "Nobody", "--reason", "left"), "no learner of the sitting is called Nobody"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_exit_code_2(marked, words, says: str) -> None:
    done = run("register", str(marked), *words)
    assert done.exit_code == 2
    assert says in done.output


def test_a_retake_is_told_beside_the_first_paper(piers_sitting) -> None:
    code = papers(piers_sitting)[0]["code"]
    issued = run("issue", "--retake", str(piers_sitting), "--for", code, "--date", "2026-02-02", "--due", "2026-02-09")
    assert issued.exit_code == 0
    [folder] = Path("output").glob("2026-02-02*")
    assert "issued; due 2026-02-09; attempt 2" in run("register", str(folder)).output
    first = run("register", str(piers_sitting)).output.splitlines()[0]
    again = papers(folder)[0]["code"]
    assert first == f"{code}  issued; taken again on {again}"
    gone = run("register", str(folder), "--withdraw", again, "--reason", "has left", "--by", "J. Marsh").output
    assert f"{again}  withdrawn: has left; attempt 2\n" in gone  # and no day is waited for


def test_a_day_before_the_sitting_is_no_day_to_hand_in(piers_sitting) -> None:
    done = run("issue", "piers.yaml", "--learners", "1", "--date", "2026-01-05", "--due", "2026-01-04")
    assert (done.exit_code, "2026-01-04 is before the sitting, on 2026-01-05" in done.output) == (2, True)


def test_references_that_changed_places_are_asked_about(piers_sitting) -> None:
    Path("b.csv").write_text("reference,name\nA2,Amara Okafor\nA1,Łukasz Wójcik\n", encoding="utf-8")
    done = run("issue", "piers.yaml", "--group", "b.csv", "--date", "2026-03-02", "--jobs", "1")
    assert done.exit_code == 0
    assert "A1 was Amara Okafor's reference and A2 Łukasz Wójcik's. Look at the class list" in done.output


def test_the_sheet_of_a_changed_mark_says_so(marked) -> None:
    code = papers(marked)[0]["code"]
    for command in ("confirm", "release"):
        assert run(command, str(marked), "--by", "J. Marsh").exit_code == 0
    decided = ("--decide", code, "1a", "1", "the joint was left out", "--assessor", "Q. Adeyemi", "--jobs", "1")
    assert run("mark", str(marked), "in.csv", *decided).exit_code == 0
    told = " ".join(page_text(marked / "marked" / f"feedback-{code}.pdf").split())
    assert "Changed since this was handed back: 1a has 1 of 2 marks now, 2 before" in told
    assert "the joint was left out." in told
    assert "so far" not in told
    assert run("register", str(marked)).output.splitlines()[0] == f"{code}  released by J. Marsh, changed since: 1a"


def page_text(file: Path) -> str:
    return "".join(page.extract_text() for page in PdfReader(file).pages)
