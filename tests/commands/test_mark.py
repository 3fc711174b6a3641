"""An assessor's day through the command line: type answers in, mark, decide, mark again, let a second marker look."""

from __future__ import annotations

import csv
import os
from pathlib import Path

import openpyxl
import pytest

from courseware.files.sitting_files import APPROVED, TUTOR, own_files
from courseware.papers.sitting_file import read_sitting
from tests.piers_sitting import BANK, answer, fill, kept, papers, run, scripts_in


@pytest.fixture
def sitting(piers_sitting: Path) -> Path:
    """The sitting on piers, just issued."""
    return piers_sitting


def test_a_sheet_is_marked_and_everything_a_class_needs_is_written(sitting) -> None:
    first, second, *_ = papers(sitting)
    slip = str(int(answer(second, "1a")) + 10)
    sheet = fill(
        sitting,
        "answers.csv",
        {"1a": f"{answer(first, '1a')} mm", "1b": answer(first, "1b")},
        {"1a": slip, "1b": str(2 * int(slip) + 10)},
        {"status": "absent"},
    )
    done = run("mark", str(sitting), sheet, "--assessor", "J. Marsh", "--jobs", "1")
    assert done.exit_code == 0
    assert "2 scripts marked (1 absent, 1 not handed in)." in done.output
    assert kept()[first["code"]] == [("1a", 2, "right"), ("1b", 1, "right")]
    assert kept()[second["code"]] == [("1a", 1, "slip"), ("1b", 1, "carried")]
    assert sorted(path.name for path in (sitting / "marked").iterdir()) == sorted([
        "all-feedback.pdf", "class-picture.pdf", "class-picture.xlsx",
        *(f"feedback-{paper['code']}.pdf" for paper in (first, second)),
    ])  # fmt: skip


def test_what_cannot_be_read_is_listed_by_cell_and_the_rest_is_marked(sitting) -> None:
    first = papers(sitting)[0]
    done = run(
        "mark", str(sitting), fill(sitting, "a.csv", {"1a": "about 12", "1b": answer(first, "1b")}), "--jobs", "1"
    )
    assert done.exit_code == 0
    assert f"row 2, {first['code']} 1a `about 12`: it does not read as one figure" in done.output
    assert kept()[first["code"]] == [("1a", 0, "asked"), ("1b", 1, "right")]
    book = openpyxl.load_workbook(sitting / "marked" / "to-settle.xlsx")
    [row] = book["Rows of the sheet"].iter_rows(min_row=2, values_only=True)
    assert row[1:4] == (first["code"], "1a", "about 12")
    [asked] = book["To settle"].iter_rows(min_row=2, values_only=True)
    assert asked[:4] == (first["code"], "1a", "How long is it?", "about 12")
    run(
        "mark",
        str(sitting),
        fill(sitting, "a.csv", {"1a": answer(first, "1a"), "1b": answer(first, "1b")}),
        "--jobs",
        "1",
    )
    assert kept()[first["code"]] == [("1a", 2, "right"), ("1b", 1, "right")]
    assert not (sitting / "marked" / "to-settle.xlsx").exists()


def test_the_assessors_own_mark_stands_with_its_reason(sitting) -> None:
    first = papers(sitting)[0]
    sheet = fill(sitting, "a.csv", {"1a": "7", "1b": answer(first, "1b")})
    done = run("mark", str(sitting), sheet, "--decide", first["code"], "1a", "1", "the method is shown", "--jobs", "1")
    assert done.exit_code == 0
    assert kept()[first["code"]] == [("1a", 1, "decided"), ("1b", 1, "right")]
    wrong = run("mark", str(sitting), sheet, "--decide", first["code"], "1a", "9", "too kind", "--jobs", "1")
    assert wrong.exit_code == 2
    assert "`9` is not a mark in whole marks from 0 to 2" in wrong.output


def test_a_comment_given_later_leaves_the_mark_that_was_given(sitting) -> None:
    code, words = papers(sitting)[0]["code"], ("--assessor", "J. Marsh", "--jobs", "1")
    sheet = fill(sitting, "a.csv", {"1a": "7"})
    run("mark", str(sitting), sheet, "--decide", code, "1a", "1", "the method is shown", *words)
    run("mark", str(sitting), sheet, "--decide", code, "1a", "", "Draw the joints first.", *words)
    assert kept()[code][0] == ("1a", 1, "decided")
    rows = list(openpyxl.load_workbook(sitting / "for-tutor/decisions.xlsx").active.iter_rows(values_only=True))
    assert rows[-1][2:5] == (1, "the method is shown", "Draw the joints first.")


def test_a_comment_on_an_answer_changed_since_gives_no_mark(sitting) -> None:
    code, words = papers(sitting)[0]["code"], ("--assessor", "J. Marsh", "--jobs", "1")
    decide = ("--decide", code, "1a", "1", "the method is shown")
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}), *decide, *words)
    comment = ("--decide", papers(sitting)[0]["learner"]["name"], "1a", "", "Draw the joints first.")
    done = run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "8"}), *comment, *words)
    assert done.exit_code == 0, done.output
    assert kept()[code][0] == ("1a", 0, "unknown")


def test_two_assessors_with_half_a_class_each_end_with_the_whole(sitting) -> None:
    first, second, *_ = papers(sitting)
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": answer(first, "1a")}), "--assessor", "A", "--jobs", "1")
    done = run(
        "mark", str(sitting), fill(sitting, "b.csv", {}, {"1a": answer(second, "1a")}), "--assessor", "B", "--jobs", "1"
    )
    assert "2 scripts marked" in done.output
    assert set(kept()) == {first["code"], second["code"]}


def test_a_paper_handed_in_again_opens_only_what_was_not_right(sitting) -> None:
    first = papers(sitting)[0]
    row = {"1a": answer(first, "1a"), "1b": "7"}
    run("mark", str(sitting), fill(sitting, "a.csv", row), "--jobs", "1")
    run(
        "mark",
        str(sitting),
        fill(sitting, "b.csv", {"status": "resubmitted", "1a": "999", "1b": answer(first, "1b")}),
        "--jobs",
        "1",
    )
    assert kept()[first["code"]] == [("1a", 2, "right"), ("1b", 1, "right")]


def test_a_mark_decided_on_the_first_attempt_does_not_bind_the_second(sitting) -> None:
    first = papers(sitting)[0]
    code, right = first["code"], answer(first, "1b")
    sheet = fill(sitting, "a.csv", {"1a": "7", "1b": right})
    run("mark", str(sitting), sheet, "--decide", code, "1a", "1", "the method is shown", "--jobs", "1")
    again = fill(sitting, "b.csv", {"status": "resubmitted", "1a": answer(first, "1a")})
    run("mark", str(sitting), again, "--jobs", "1")
    assert kept()[code] == [("1a", 2, "right"), ("1b", 1, "right")]


def test_a_row_cleared_since_is_a_paper_not_in_and_a_withdrawn_one_is_not_waited_for(sitting) -> None:
    first, second, third, _ = papers(sitting)
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}, {"1a": answer(second, "1a")}), "--jobs", "1")
    run("register", str(sitting), "--withdraw", third["code"], "--reason", "has left the course", "--by", "J. Marsh")
    done = run("mark", str(sitting), fill(sitting, "a.csv", {}, {"1a": answer(second, "1a")}), "--jobs", "1")
    assert f"Changed: {first['code']} 1a was `7`" in done.output
    assert "1 script marked (2 not handed in, 1 withdrawn)." in done.output
    assert not (sitting / "marked" / f"feedback-{first['code']}.pdf").exists()


def test_what_was_not_recognised_waits_for_a_look_and_is_settled_on_its_own_sheet(sitting) -> None:
    first = papers(sitting)[0]
    sheet = fill(sitting, "a.csv", {"1a": "7", "1b": "8"})
    done = run("mark", str(sitting), sheet, "--jobs", "1")
    assert "2 answers wait for your look at the working" in done.output
    file = sitting / "marked" / "to-settle.xlsx"
    book = openpyxl.load_workbook(file)
    page = book["To settle"]
    columns = {cell.value: cell.column for cell in page[1]}
    rows = {row[columns["part"] - 1]: row for row in page.iter_rows(min_row=2, values_only=True)}
    assert list(rows) == ["1a", "1b"]
    assert rows["1b"][columns["own earlier answers"] - 1] == "1a: 7"
    assert rows["1b"][columns["these give"] - 1] == "24 mm"
    assert rows["1b"][columns["the key"] - 1] == f"{answer(first, '1b')} mm"
    page.cell(2, columns["seen 1"], "x")
    page.cell(3, columns["marks"], "1")
    page.cell(3, columns["reason"], "worked on from 7")
    book.save(file)
    settled = run("mark", str(sitting), sheet, "--jobs", "1")
    assert settled.exit_code == 0, settled.output
    assert kept()[first["code"]] == [("1a", 1, "decided"), ("1b", 1, "decided")]
    assert "wait for your look" not in settled.output
    assert not file.exists()


def test_a_look_at_an_answer_that_is_another_since_is_told_and_asked_again(sitting) -> None:
    first = papers(sitting)[0]
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}), "--jobs", "1")
    file = sitting / "marked" / "to-settle.xlsx"
    book = openpyxl.load_workbook(file)
    page = book["To settle"]
    page.cell(2, next(cell.column for cell in page[1] if cell.value == "seen 1"), "x")
    book.save(file)
    again = run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "9"}), "--jobs", "1")
    assert f"{first['code']} 1a was `7` when it was looked at, now it is `9`: look again." in again.output
    assert kept()[first["code"]][0] == ("1a", 0, "unknown")
    [row] = openpyxl.load_workbook(file)["To settle"].iter_rows(min_row=2, values_only=True)
    assert row[3] == "9"


def test_a_marked_folder_that_is_a_link_elsewhere_is_left_alone(sitting, tmp_path) -> None:
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    (elsewhere / "feedback-mine.pdf").write_bytes(b"the tutor's own")
    (sitting / "marked").symlink_to(elsewhere)
    done = run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}), "--jobs", "1")
    assert done.exit_code == 2
    assert "is not a folder of its own" in done.output
    assert [path.name for path in elsewhere.iterdir()] == ["feedback-mine.pdf"]


@pytest.mark.parametrize("name", ["x" * 200, "J. \u202eMarsh", "  "])
def test_an_assessor_is_named_in_plain_characters(sitting, name) -> None:
    done = run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}), "--assessor", name)
    assert done.exit_code == 2
    assert "write a name of at most" in done.output
    kept_for = run("record", "keep", "scripts", "3", "--by", name)
    assert kept_for.exit_code == 2
    assert "write a name of at most" in kept_for.output


def test_messages_show_no_signs_that_steer_the_screen(sitting) -> None:
    done = run("mark", "output/\u202enothing")
    assert done.exit_code == 2
    assert "<U+202E>" in done.output
    assert "\u202e" not in done.output


def test_an_empty_sheet_says_what_to_do(sitting) -> None:
    done = run("mark", str(sitting))
    assert done.exit_code == 2
    assert "type them in, one row a paper" in done.output
    assert not (sitting / "marked").exists()


def test_a_faulty_sheet_is_refused_with_its_lines_and_nothing_is_kept(sitting) -> None:
    done = run("mark", str(sitting), fill(sitting, "a.csv", {"code": "ZZZZ-ZZZZ-Z", "1a": "5"}))
    assert done.exit_code == 2
    assert "a.csv:2:1: `ZZZZ-ZZZZ-Z` is not the code of a paper of this sitting" in done.output
    assert scripts_in() == 0


def test_a_sitting_that_is_not_there_is_said_so(sitting) -> None:
    done = run("mark", "output/nothing")
    assert done.exit_code == 2
    assert "there is no sitting output/nothing" in done.output


def test_names_stand_only_where_they_are_asked_for(sitting) -> None:
    first = papers(sitting)[0]
    sheet = fill(sitting, "a.csv", {"1a": answer(first, "1a")})

    def shown() -> str:
        book = openpyxl.load_workbook(sitting / "marked" / "class-picture.xlsx")
        return " ".join(str(cell.value) for page in book for row in page.iter_rows() for cell in row)

    run("mark", str(sitting), sheet, "--jobs", "1")
    assert "Amara" not in shown()
    run("mark", str(sitting), sheet, "--names", "--jobs", "1")
    assert "Amara Okafor" in shown()


def test_the_second_marker_gets_scripts_as_written_and_the_two_are_compared(sitting) -> None:
    first = papers(sitting)[0]
    assert "no script of the sitting" in run("mark", str(sitting), "--second").output
    sheet = fill(sitting, "a.csv", {"1a": answer(first, "1a"), "1b": "7"})
    run("mark", str(sitting), sheet, "--assessor", "A", "--jobs", "1")
    done = run("mark", str(sitting), "--second")
    assert done.exit_code == 0, done.output
    book = openpyxl.load_workbook(sitting / "for-tutor" / "second-marking-sheet.xlsx")
    assert [(row[2], row[5]) for row in book["Marks"].iter_rows(min_row=2, values_only=True)] == [
        ("1a", answer(first, "1a")),
        ("1b", "7"),
    ]
    book["Marks"]["I2"], book["Marks"]["I3"] = 2, 1
    book.save("b.xlsx")
    refused = run("mark", str(sitting), "b.xlsx", "--second", "--assessor", "a")
    assert (refused.exit_code, "the second marker is another person" in refused.output) == (2, True)
    Path("centre.yaml").write_text("first_marker: program\n", encoding="utf-8")
    done = run("mark", str(sitting), "b.xlsx", "--second", "--assessor", "B")
    assert done.exit_code == 0, done.output
    assert "2 marks by B entered.\n1 of 2 parts marked differently, on 1 paper." in done.output
    assert kept("first")[first["code"]][1] == ("1b", 0, "unknown")
    assert list((sitting / "marked").glob("*two-markers*"))


def test_the_record_can_be_another_database(sitting, monkeypatch) -> None:
    first = papers(sitting)[0]
    sheet = fill(sitting, "a.csv", {"1a": answer(first, "1a")})
    assert run("mark", str(sitting), sheet, "--record", "sqlite:///elsewhere.sqlite", "--jobs", "1").exit_code == 0
    assert Path("elsewhere.sqlite").exists()
    monkeypatch.setenv("COURSEWARE_RECORD", "sqlite:///from-the-environment.sqlite")
    assert run("mark", str(sitting), sheet, "--jobs", "1").exit_code == 0
    assert Path("from-the-environment.sqlite").exists()
    assert scripts_in() == 0


@pytest.mark.skipif(os.name != "posix", reason="modes are POSIX")
def test_every_file_in_a_sittings_folder_is_on_the_list_by_which_a_learner_is_deleted(piers_sitting) -> None:
    """Issued with editable copies, marked with a cell to settle and a decision, and by a second marker: no file is left out."""
    with_copies = ("--group", "group-a.csv", "--date", "2026-02-02", "--word", "--jobs", "1")
    assert run("issue", "piers.yaml", *with_copies).exit_code == 0
    [sitting] = Path("output").glob("2026-02-02*")
    rows = [{"1a": answer(paper, "1a"), "1b": "about 12"} for paper in papers(sitting)]
    sheet, code = fill(sitting, "a.csv", *rows), papers(sitting)[0]["code"]
    run("mark", str(sitting), sheet, "--decide", code, "1a", "1", "the method is shown", "--jobs", "1")
    run("mark", str(sitting), "--second")
    there = {path.relative_to(sitting).as_posix() for path in sitting.rglob("*") if path.is_file()}
    approved = f"{TUTOR}/{APPROVED}"  # of papers that somebody approved before they were printed
    assert {*there, approved} == own_files(read_sitting((sitting / "sitting.json").read_text(encoding="utf-8")))


def test_what_comes_of_marking_is_for_its_owner_alone(sitting) -> None:
    first = papers(sitting)[0]
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": answer(first, "1a")}), "--jobs", "1")
    for path in (*(sitting / "marked").iterdir(), Path("output/record.sqlite")):
        assert path.stat().st_mode & 0o077 == 0, path


# ---- a row under the wrong code, and decisions on answers that change

SIX = BANK.replace(
    "      - name: twice", "".join(
        f"""      - name: of_{n}
        ask: How long are {n} of them, with joints between?
        answer: {n} * (pier(bricks) + joint) - joint
        apart_from: [length]
        unit: mm
        marks: 1
        working: [{{say: "So", value: "{n} * bricks * module - joint"}}]
""" for n in (3, 4, 5)) + "      - name: twice",
)  # fmt: skip
LABELS = ("1a", "1b", "1c", "1d", "1e")


@pytest.fixture
def six(tmp_path, monkeypatch) -> Path:
    """A sitting with five figures a paper."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    Path("piers.yaml").write_text(SIX, encoding="utf-8")
    assert (
        run(
            "issue", "piers.yaml", "--learners", "3", "--seed", "six papers", "--date", "2026-01-05", "--jobs", "1"
        ).exit_code
        == 0
    )
    [folder] = Path("output").glob("2026*")
    return folder


def row(paper: dict, *labels: str) -> dict[str, str]:
    """The answers of a paper under these labels, or all of them."""
    return {label: answer(paper, label) for label in labels or LABELS}


def sheet_of(folder: Path, *rows: dict[str, str], decisions: str = "") -> str:
    with Path("six.csv").open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, ["code", "status", *LABELS])
        writer.writeheader()
        for paper, cells in zip(papers(folder), rows, strict=False):
            writer.writerow({"code": paper["code"], **cells})
    return "six.csv"


def test_of_two_rows_exchanged_both_are_held_though_one_shows_it_with_few_figures(six) -> None:
    one, other, third = papers(six)
    sheet = sheet_of(six, row(other), row(one, "1a"), row(third))
    done = run("mark", str(six), sheet, "--assessor", "J. Marsh", "--jobs", "1")
    assert "1 script marked (2 held back)" in done.output
    assert f"4 answers are of the paper {other['code']}" in done.output
    assert f"1 answer is of the paper {one['code']}" in done.output


def test_a_row_with_one_figure_of_a_paper_that_is_not_held_is_marked(six) -> None:
    one, _, third = papers(six)
    done = run(
        "mark", str(six), sheet_of(six, row(one), row(one, "1a"), row(third)), "--assessor", "J. Marsh", "--jobs", "1"
    )
    assert "3 scripts marked" in done.output


def test_a_comment_or_a_mark_for_a_part_does_not_say_whose_row_it_is(six) -> None:
    one, other, third = papers(six)
    sheet = sheet_of(six, row(other), {}, row(third))
    decide = ("--decide", one["code"], "1a", "1", "Seen in the working")
    done = run("mark", str(six), sheet, *decide, "--assessor", "J. Marsh", "--jobs", "1")
    assert "1 held back" in done.output
    decide = ("--decide", one["code"], "paper", "", "It is this learner's hand: the papers were exchanged")
    done = run("mark", str(six), sheet, *decide, "--assessor", "J. Marsh", "--jobs", "1")
    assert "held back" not in done.output
    refused = run("mark", str(six), sheet, "--decide", one["code"], "paper", "3", "So", "--assessor", "J. Marsh")
    assert refused.exit_code == 2
    assert "of a whole paper, write no mark" in refused.output


def test_a_decision_lapses_when_the_answer_under_it_is_changed(sitting) -> None:
    first, *_ = papers(sitting)
    code = first["code"]
    decide = ("--decide", code, "1a", "2", "The working is right")
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "7"}), *decide, "--assessor", "J. Marsh", "--jobs", "1")
    assert kept()[code][0] == ("1a", 2, "decided")
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": " 7 "}), "--assessor", "J. Marsh", "--jobs", "1")
    assert kept()[code][0] == ("1a", 2, "decided")  # the same answer
    done = run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "8"}), "--assessor", "J. Marsh", "--jobs", "1")
    assert kept()[code][0] == ("1a", 0, "unknown")
    assert "was made on ` 7 ` and has lapsed" in done.output or "was made on `7` and has lapsed" in done.output
    decide = ("--decide", code, "1a", "1", "Looked at again")
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "8"}), *decide, "--assessor", "J. Marsh", "--jobs", "1")
    assert kept()[code][0] == ("1a", 1, "decided")


# ---- a record that was lost


def test_a_mark_given_at_the_command_line_is_there_again_in_a_record_made_anew(sitting) -> None:
    code, words = papers(sitting)[0]["code"], ("--assessor", "J. Marsh", "--jobs", "1")
    sheet = fill(sitting, "a.csv", {"1a": "7"})
    run("mark", str(sitting), sheet, "--decide", code, "1a", "2", "=The working is right", *words)
    Path("output/record.sqlite").unlink()
    run("record", "take", str(sitting))
    run("mark", str(sitting), sheet, *words)
    assert kept()[code][0] == ("1a", 2, "decided")
    Path("output/record.sqlite").unlink()
    for _ in range(2):  # and is asked about again until it is settled
        done = run("mark", str(sitting), fill(sitting, "a.csv", {"1a": "8"}), *words)
        assert kept()[code][0] == ("1a", 0, "unknown")
        assert "2 of its marks: =The working is right) was made on `7` and has lapsed" in done.output


# ---- a decision on the sheet, and another given since


def decided_on_sheet(folder: Path, rows: dict[str, dict[str, str]], *decided: tuple[object, ...]) -> None:
    """Fills the sitting's own marking sheet: cells by code and part, and its sheet of decisions."""
    file = folder / "for-tutor/marking-sheet.xlsx"
    book = openpyxl.load_workbook(file)
    answers, decisions = book.worksheets[0], book["Decisions"]
    heads = [cell.value for cell in answers[1]]
    for row in answers.iter_rows(min_row=2):
        for part, text in rows.get(row[heads.index("code")].value, {}).items():
            row[heads.index(part)].value = text
    decisions.delete_rows(2, decisions.max_row)
    for row in decided:
        decisions.append(row)
    book.save(file)


def test_a_decision_given_since_stands_over_the_sheet_that_says_what_it_said(sitting) -> None:
    code, words = papers(sitting)[0]["code"], ("--assessor", "J. Marsh", "--jobs", "1")
    decided_on_sheet(sitting, {code: {"1a": "7"}}, (code, "1a", 1, "The method is shown"))
    assert "Left as it is" not in run("mark", str(sitting), *words).output
    assert kept()[code][0] == ("1a", 1, "decided")
    run("mark", str(sitting), "--decide", code, "1a", "0", "Copied from the board", *words)
    assert kept()[code][0] == ("1a", 0, "decided")
    for _ in range(2):
        done = run("mark", str(sitting), *words)
        assert kept()[code][0] == ("1a", 0, "decided")
        line = (
            "1a is decided as `1 mark: The method is shown` in this sheet; `0 marks: Copied from the board` came since"
        )
        assert [line in told for told in done.output.splitlines()].count(True) == 1
    Path("output/record.sqlite").unlink()  # and so it is in a record made anew
    run("record", "take", str(sitting))
    assert line in run("mark", str(sitting), *words).output
    assert kept()[code][0] == ("1a", 0, "decided")
    decided_on_sheet(sitting, {}, (code, "1a", 2, "Asked about it"))
    assert "Left as it is" not in run("mark", str(sitting), *words).output
    assert kept()[code][0] == ("1a", 2, "decided")
    decided_on_sheet(sitting, {}, (code, "1a", 1, "The method is shown"))  # and back: the sheet was changed
    assert "Left as it is" not in run("mark", str(sitting), *words).output
    assert kept()[code][0] == ("1a", 1, "decided")


def test_one_given_together_with_another_on_the_sheet_comes_after_it(sitting) -> None:
    code, words = papers(sitting)[0]["code"], ("--assessor", "J. Marsh", "--jobs", "1")
    decided_on_sheet(sitting, {code: {"1a": "7"}}, (code, "1a", 1, "The method is shown", "Show the joint."))
    run("mark", str(sitting), "--decide", code, "1a", "0", "Copied from the board", *words)
    assert kept()[code][0] == ("1a", 0, "decided")
    run("mark", str(sitting), *words)
    assert kept()[code][0] == ("1a", 0, "decided")
    run("mark", str(sitting), "--decide", code, "1a", "", "Ask for help.", *words)  # a comment gives no mark back
    assert kept()[code][0] == ("1a", 0, "decided")


def test_a_mark_that_two_markers_agreed_stands_over_the_marking_sheet(sitting) -> None:
    code, words = papers(sitting)[0]["code"], ("--assessor", "J. Marsh", "--jobs", "1")
    own = sitting / "for-tutor/marking-sheet.xlsx"
    blank = own.read_bytes()
    decided_on_sheet(sitting, {code: {"1a": "7"}}, (code, "1a", 1, "The method is shown"))
    run("mark", str(sitting), *words)
    filled = own.read_bytes()
    own.write_bytes(blank)
    decided_on_sheet(sitting, {code: {"1a": "7"}}, (code, "1a", 0, "Agreed: copied"))
    own.rename("two-markers.xlsx")
    own.write_bytes(filled)
    run("mark", str(sitting), "two-markers.xlsx", *words)
    assert "Left as it is: " in run("mark", str(sitting), *words).output
    assert kept()[code][0] == ("1a", 0, "decided")


def test_the_empty_sheet_of_a_sitting_that_was_typed_elsewhere_is_told_in_one_line(sitting) -> None:
    words = ("--assessor", "J. Marsh", "--jobs", "1")
    first = papers(sitting)[0]
    run("mark", str(sitting), fill(sitting, "a.csv", {"1a": answer(first, "1a"), "1b": "7"}), *words)
    told = run("mark", str(sitting), *words).output
    assert "Left as they are: 2 cells of 1 paper, empty in this sheet, that J. Marsh typed since." in told
    assert "is ``" not in told
