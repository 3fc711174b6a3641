"""A term of a class of fourteen through the command line: every step of the assessor's loop, by hand-written figures.

Each paper has 3 marks: the length of a pier (2), and two of them with a joint between (1), which carries the first. What each
learner writes, and what that earns by the bank's own words, stands in `WRITTEN`; all names are invented.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from openpyxl import load_workbook
from pypdf import PdfReader

from tests.piers_sitting import BANK, answer, fill, papers, run
from tests.workflows.filled_marks import fill as fill_marks

NAMES = (
    "Amara Okafor", "Łukasz Wójcik", "Zoë Smythe", "Bea Hart", "Callum Reid", "Dilys Pugh", "Ewan Grieve", "Farah Aziz",
    "Gwen Moss", "Hamza Said", "Iona Kerr", "Jakub Nowak", "Kezia Lund",
)  # fmt: skip
JOINER = "Liam Boyd"
AUTUMN, SPRING = "2024-10-07", "2025-01-13"

Right = tuple[int, int]
# By place on the class list: what stands in the two cells, from the right figures, and the marks that it earns.
WRITTEN: dict[int, tuple[Callable[[Right], tuple[str, str]], int]] = {
    1: (
        lambda right: (str(right[0] + 10), str(2 * right[0] + 30)),
        2,
    ),  # the joint left on (1 of 2), then carried (1 of 1)
    2: (lambda right: ("about a metre", str(right[1])), 1),  # cannot be read: a person is asked
    3: (lambda right: (str(right[0]), "17"), 2),  # not recognised
    4: (lambda right: (str(right[0]), ""), 2),  # nothing written
    5: (lambda _: ("", ""), 0),  # absent
}
ALL_RIGHT = 3


def said(*words: object) -> str:
    """What a command says that does what it was asked."""
    done = run(*map(str, words))
    assert done.exit_code == 0, done.output
    return done.output


def refused(*words: object) -> str:
    """The one line with which a command refuses."""
    done = run(*map(str, words))
    assert done.exit_code == 2, done.output
    return done.output.strip()


def right(paper: dict) -> Right:
    return int(answer(paper, "1a")), int(answer(paper, "1b"))


def text_of(file: Path) -> str:
    return " ".join(" ".join(page.extract_text().split()) for page in PdfReader(file).pages)


def code_of(folder: Path, place: int) -> str:
    return papers(folder)[place - 1]["code"]


def totals(folder: Path) -> dict[str, str]:
    """Each paper's total by its feedback sheet."""
    found = {}
    for paper in papers(folder):
        sheet = folder / "marked" / f"feedback-{paper['code']}.pdf"
        if sheet.is_file():
            found[paper["code"]] = re.search(r"(\d+) out of 3", text_of(sheet)).group(1)
    return found


@pytest.fixture
def centre(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of work with the bank, the centre's criteria and the class list of thirteen."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    Path("piers.yaml").write_text(BANK, encoding="utf-8")
    lines = [f"A{place},{name}" for place, name in enumerate(NAMES, 1)]
    Path("group-a.csv").write_text("\n".join(["reference,name", *lines]) + "\n", encoding="utf-8")
    Path("centre.yaml").write_text(
        "first_marker: program\ncriteria:\n  - {code: P1, says: Works out a pier, evidence: [{topic: Piers, exercise: pier-length, part: length}]}\n",
        encoding="utf-8",
    )
    return tmp_path


def issue(date: str, *more: str) -> Path:
    said("issue", "piers.yaml", "--group", "group-a.csv", "--date", date, "--jobs", "1", *more)
    [folder] = Path("output").glob(f"{date}*")
    return folder


def sheet_of(folder: Path) -> str:
    """The class's answers as the assessor types them."""
    rows = []
    for place, paper in enumerate(papers(folder), 1):
        write, _ = WRITTEN.get(place, (lambda known: (str(known[0]), str(known[1])), ALL_RIGHT))
        first, second = write(right(paper))
        rows.append({"1a": first, "1b": second, "status": "absent" if place == 5 else ""})
    return fill(folder, "answers.csv", *rows)


def test_a_term(centre: Path) -> None:
    autumn = issue(AUTUMN, "--due", "2024-10-14")
    said("join", autumn, "--name", JOINER, "--reference", "A14")
    codes = [paper["code"] for paper in papers(autumn)]
    assert len(codes) == 14
    the_register_has_every_paper(autumn, codes)
    answers_that_wait_are_settled(autumn, codes)
    a_released_mark_changes_by_a_decision_alone(autumn, codes)
    a_second_marker_marks(autumn, codes)
    an_appeal_is_heard_by_another_person(autumn, codes)
    a_sample_s_action_is_closed(autumn, codes)
    one_hands_in_again_and_one_takes_a_retake(autumn, codes)
    a_second_sitting_is_mapped_too(autumn, codes)
    one_is_deleted_and_the_others_stay(autumn, codes)


def the_register_has_every_paper(autumn: Path, codes: list[str]) -> None:
    """The register has every paper from the moment of issue; one is absent with a reason."""
    assert said("register", autumn).splitlines() == [f"{code}  issued; due 2024-10-14" for code in codes]
    assert "is absent for a reason" in refused("register", autumn, "--absent", "A5")
    said("register", autumn, "--absent", "A5", "--reason", "medical appointment", "--by", "J. Marsh")


def answers_that_wait_are_settled(autumn: Path, codes: list[str]) -> None:
    """Marked: two answers wait, so those two scripts are provisional and cannot be confirmed."""
    said("mark", autumn, sheet_of(autumn), "--assessor", "J. Marsh", "--jobs", "1")
    expected = {
        code: str(WRITTEN[place][1] if place in WRITTEN else ALL_RIGHT)
        for place, code in enumerate(codes, 1)
        if place != 5
    }
    assert totals(autumn) == expected
    for place in (2, 3):
        assert "so far" in text_of(autumn / "marked" / f"feedback-{codes[place - 1]}.pdf")
        assert codes[place - 1] in refused("confirm", autumn, "--for", f"A{place}", "--by", "J. Marsh")
    said("mark", autumn, "answers.csv", "--assessor", "J. Marsh", "--jobs", "1", "--decide", codes[1], "1a", "1",
         "the working shows bricks times module", "--decide", codes[2], "1b", "0", "no working stands there")  # fmt: skip
    assert totals(autumn)[codes[1]] == "2"


def a_released_mark_changes_by_a_decision_alone(autumn: Path, codes: list[str]) -> None:
    """Confirmed and released; a released mark changes by a decision with its reason alone, and its sheet says so."""
    assert refused("release", autumn, "--for", "A1", "--by", "J. Marsh")
    assert said("confirm", autumn, "--by", "J. Marsh") == "13 scripts confirmed.\n"
    assert said("release", autumn, "--by", "J. Marsh") == "13 scripts released.\n"
    said("mark", autumn, "answers.csv", "--assessor", "J. Marsh", "--jobs", "1", "--decide", codes[3], "1b", "1",
         "worked out on the back of the sheet")  # fmt: skip
    changed = text_of(autumn / "marked" / f"feedback-{codes[3]}.pdf")
    assert "3 out of 3" in changed
    assert "changed" in changed.lower()


def a_second_marker_marks(autumn: Path, codes: list[str]) -> None:
    """A second marker marks: another person than the first, who finds one mark otherwise; the two settle it."""
    said("mark", autumn, "--second")
    blank = autumn / "for-tutor" / "second-marking-sheet.xlsx"
    other = {(codes[1], "1a"): 1, (codes[2], "1b"): 0}  # all else right, the first script's length too
    by_hand = fill_marks(blank, "by-hand.xlsx", marks=other)
    assert "the second marker is another person" in refused(
        "mark", autumn, by_hand, "--second", "--assessor", "J. Marsh"
    )
    told = said("mark", autumn, by_hand, "--second", "--assessor", "R. Quinn")
    assert "26 marks by R. Quinn entered." in told
    assert "1 of 26 parts marked differently" in told
    settled = next((autumn / "marked").glob("two-markers*.xlsx"))
    fill_in(settled, "1a", {"marks": 2, "reason": "both agree that the joint was crossed out"})
    assert totals(autumn)[codes[0]] == "2"  # released: it stands until that is entered
    said("mark", autumn, settled, "--assessor", "J. Marsh", "--jobs", "1")
    assert totals(autumn)[codes[0]] == "3"


def an_appeal_is_heard_by_another_person(autumn: Path, codes: list[str]) -> None:
    """An appeal freezes what stood; another person than the two markers marks again, and one mark changes."""
    code = codes[2]
    assert totals(autumn)[code] == "2"
    said("appeal", autumn, code, "--reason", "the second length is right", "--date", "2024-10-16")
    assert "is under appeal since 2024-10-16" in refused(
        "mark", autumn, "answers.csv", "--jobs", "1", "--decide", code, "1b", "1", "seen"
    )
    sheet = Path(f"output/appeal-{code}-2024-10-16/re-mark-{code}.xlsx")
    outcome = {"outcome": "changed", "date": "2024-10-18", "reason": "the working stands overleaf"}
    again = fill_marks(sheet, "again.xlsx", outcome=outcome)
    assert refused("appeal", autumn, code, again, "--assessor", "J. Marsh")
    assert f"The appeal on {code} is closed: 1 mark changed." in said(
        "appeal", autumn, code, again, "--assessor", "R. Holt"
    )
    said("mark", autumn, "answers.csv", "--assessor", "J. Marsh", "--jobs", "1")
    assert totals(autumn)[code] == "3"


def a_sample_s_action_is_closed(autumn: Path, codes: list[str]) -> None:
    """The quality assurer's sample comes back with an action; it is listed until it is closed."""
    said("sample", "--papers", "4", "--seed", "term")
    plan = next(Path("output").glob("sampling-plan-*.xlsx"))
    assert sum(1 for _ in load_workbook(plan)["Sample"].iter_rows(min_row=2)) == 4
    yes = {"agreed": "yes", "by": "A. Quinn", "date": "2024-10-21"}
    fill_in(plan, "", yes, {2: yes | {"agreed": "no", "action": "look at every joint again"}})
    assert "4 results entered." in said("sample", "--results", plan)
    assert "look at every joint again" in said("sample", "--actions")
    fill_in(plan, "", {}, {2: {"action closed": "2024-10-28"}})
    assert "0 actions open." in said("sample", "--results", plan)


def one_hands_in_again_and_one_takes_a_retake(autumn: Path, codes: list[str]) -> None:
    """One hands in again, one takes a retake: another paper, in the register at once."""
    said(
        "register", autumn, "--resubmission", "A3", "--until", "2024-10-21", "--reason", "as agreed", "--by", "J. Marsh"
    )
    said("issue", "--retake", autumn, "--for", "A4", "--date", "2024-11-04", "--jobs", "1")
    [retake] = Path("output").glob("2024-11-04*")
    assert said("register", autumn).splitlines()[3].endswith(f"taken again on {code_of(retake, 1)}")
    assert said("register", retake).splitlines() == [f"{code_of(retake, 1)}  issued; attempt 2"]


def a_second_sitting_is_mapped_too(autumn: Path, codes: list[str]) -> None:
    """A second sitting; the criteria map has both, and says who is secure."""
    spring = issue(SPRING)
    first = papers(spring)[0]
    said(
        "mark",
        spring,
        fill(spring, "spring.csv", {"1a": str(right(first)[0]), "1b": str(right(first)[1])}),
        "--jobs",
        "1",
    )
    assert "1 criterion, 14 learners:" in said("criteria", "--bank", "piers.yaml")


def one_is_deleted_and_the_others_stay(autumn: Path, codes: list[str]) -> None:
    """What is past its time is listed; a learner is deleted for good, everybody else's marks stay."""
    said("record", "keep", "scripts", "12", "--by", "J. Marsh")
    assert AUTUMN in said("record", "past")
    before = totals(autumn)
    told = said("record", "delete", "A2", "--yes")
    assert "What marking made is removed: mark the sitting again." in told
    for file in Path("output").rglob("*.xlsx"):
        cells = [
            str(cell) for sheet in load_workbook(file) for row in sheet.iter_rows(values_only=True) for cell in row
        ]
        assert NAMES[1] not in cells, file
    assert NAMES[1] not in (autumn / "sitting.json").read_text(encoding="utf-8")
    without = Path("answers.csv").read_text(encoding="utf-8").splitlines(keepends=True)
    Path("answers.csv").write_text("".join(line for line in without if codes[1] not in line), encoding="utf-8")
    said("mark", autumn, "answers.csv", "--assessor", "J. Marsh", "--jobs", "1")
    assert totals(autumn) == {code: total for code, total in before.items() if code != codes[1]}
    left = said("register", autumn).splitlines()
    assert (len(left), codes[1] in " ".join(left)) == (13, False)
    assert left[0].startswith(f"{codes[0]}  released")


def fill_in(file: Path, part: str, typed: dict[str, object], other: dict[int, dict[str, object]] | None = None) -> None:
    """Types into the first sheet of a workbook: the same into each row (of a part, if one is named), or into one row."""
    book = load_workbook(file)
    sheet = book.worksheets[0]
    column = {str(cell.value).lower(): cell.column for cell in sheet[1]}
    for row in range(2, sheet.max_row + 1):
        if not part or sheet.cell(row, column["part"]).value == part:
            for heading, text in {**typed, **(other or {}).get(row, {})}.items():
                sheet.cell(row, column[heading], text)
    book.save(file)
