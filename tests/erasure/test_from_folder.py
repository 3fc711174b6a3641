"""A learner is taken out of a sitting's folder so that no file in it holds the name, the reference or the code."""

from __future__ import annotations

import json
import re
import stat

import openpyxl
import pytest
from click.testing import CliRunner
from pypdf import PdfReader

from courseware.cli import main
from courseware.erasure.from_folder import erase_from_folder
from courseware.files.sitting_folders import find_folders, read_folder
from courseware.papers.sitting_file import SittingFaulty
from courseware.spreadsheets.xlsx_out import Page, safe_workbook
from tests.erasure.conftest import BANK, NAME, REFERENCE, heading, mentions, nobody, papers_of


def test_the_search_finds_the_learner_in_every_kind_of_file(folder) -> None:
    papers = papers_of(folder)
    code = papers.codes[0]
    assert mentions(folder, papers.words) == [
        "for-learners/all-papers.pdf",
        f"for-learners/paper-{code}.docx",
        f"for-learners/paper-{code}.pdf",
        "for-tutor/all-keys.pdf",
        "for-tutor/class-grid.pdf",
        f"for-tutor/key-{code}.docx",
        f"for-tutor/key-{code}.pdf",
        "for-tutor/marking-sheet.xlsx",
        "for-tutor/second-marking-sheet.xlsx",
        "sitting.json",
    ]


@pytest.mark.parametrize("who", [NAME, REFERENCE, "code"])
def test_no_file_holds_a_learner_who_was_taken_out(folder, who) -> None:
    papers = papers_of(folder)
    found = papers_of(folder, papers.codes[0] if who == "code" else who)
    done = erase_from_folder(folder, found, nobody)
    assert mentions(folder, papers.words) == []
    assert done.look == ()
    assert not done.whole
    assert mentions(folder, ("Amara Okafor",)) != []


def test_everybody_elses_papers_stay_byte_for_byte(folder) -> None:
    papers = papers_of(folder)
    singles = [path for path in folder.rglob("*.pdf") if re.match("(paper|key)-", path.name)]
    before = {path: path.read_bytes() for path in singles if papers.codes[0] not in path.name}
    erase_from_folder(folder, papers, nobody)
    assert {path: path.read_bytes() for path in before} == before
    assert len(before) == 4
    for name in ("for-learners/all-papers.pdf", "for-tutor/all-keys.pdf"):
        assert len(PdfReader(folder / name).pages) == 4  # two learners, one sheet each, printed on both sides


def test_the_record_in_the_folder_makes_the_others_again(folder, tmp_path) -> None:
    erase_from_folder(folder, papers_of(folder), nobody)
    done = CliRunner().invoke(main, ["again", str(folder), "--out", str(tmp_path / "again")])
    assert done.exit_code == 0, done.output
    [made] = [path for path in (tmp_path / "again").iterdir() if path.is_dir()]
    for name in ("for-learners/all-papers.pdf", "for-tutor/all-keys.pdf", "for-tutor/class-grid.pdf", "sitting.json"):
        assert (made / name).read_bytes() == (folder / name).read_bytes(), name


def test_other_rows_of_a_marking_sheet_keep_what_was_typed(folder) -> None:
    frozen = openpyxl.load_workbook(folder / "for-tutor/marking-sheet.xlsx")["Answers"].freeze_panes
    erase_from_folder(folder, papers_of(folder), nobody)
    for name in ("marking-sheet.xlsx", "second-marking-sheet.xlsx"):
        book = openpyxl.load_workbook(folder / "for-tutor" / name)
        column = next(c for c in range(1, 20) if heading(book, c) == "1a")
        rows = [(row[1].value, row[column - 1].value) for row in book["Answers"].iter_rows(min_row=2, max_row=4)]
        assert rows == [("Amara Okafor", "typed in row 2"), ("=1+1", "typed in row 4"), (None, None)]
        formula_like = book["Answers"].cell(3, 2)
        assert (formula_like.data_type, formula_like.number_format) == ("s", "@")  # still a name, not a sum
        assert book["Answers"].freeze_panes == frozen


def test_files_keep_the_rights_they_had(folder) -> None:
    erase_from_folder(folder, papers_of(folder), nobody)
    rights = {
        name: stat.S_IMODE((folder / name).stat().st_mode) for name in ("sitting.json", "for-learners/all-papers.pdf")
    }
    assert rights == {"sitting.json": 0o600, "for-learners/all-papers.pdf": 0o644}


def test_what_marking_made_goes_whole(folder) -> None:
    papers = papers_of(folder)
    (folder / "marked").mkdir()
    for name in (f"feedback-{papers.codes[0]}.pdf", "all-feedback.pdf", "class-picture.xlsx", "to-settle.xlsx"):
        (folder / "marked" / name).write_bytes(b"x")
    done = erase_from_folder(folder, papers, nobody)
    assert done.was_marked
    assert not (folder / "marked").exists()


def test_a_class_grid_that_cannot_be_made_any_more_goes(folder, monkeypatch) -> None:
    from courseware.erasure import from_folder

    def later_program(_: str) -> bytes:
        raise SittingFaulty("this version works the answers out otherwise")

    monkeypatch.setattr(from_folder, "print_grid", later_program)
    papers = papers_of(folder)
    assert "for-tutor/class-grid.pdf" in erase_from_folder(folder, papers, nobody).removed
    assert mentions(folder, papers.words) == []


def test_joined_files_go_where_a_single_sheet_is_missing(folder) -> None:
    papers = papers_of(folder)
    other = next(code for code in (p.code for p in read_folder(folder).sitting.papers) if code not in papers.codes)
    (folder / f"for-tutor/key-{other}.pdf").unlink()
    done = erase_from_folder(folder, papers, nobody)
    assert "for-tutor/all-keys.pdf" in done.removed
    assert mentions(folder, papers.words) == []


def test_a_stop_half_way_is_gone_on_with(folder, monkeypatch) -> None:
    from courseware.erasure import from_folder

    papers = papers_of(folder)

    def stopped(*_: object) -> None:
        raise OSError(28, "No space left on device")

    with monkeypatch.context() as full:
        full.setattr(from_folder, "print_grid", stopped)
        with pytest.raises(OSError, match="No space"):
            erase_from_folder(folder, papers, nobody)
    assert papers_of(folder) == papers  # still to be found
    erase_from_folder(folder, papers, nobody)
    assert mentions(folder, papers.words) == []


def test_the_last_learners_folder_goes(folder) -> None:
    for who in ("Amara Okafor", "=1+1"):
        assert not erase_from_folder(folder, papers_of(folder, who), nobody).whole
    assert erase_from_folder(folder, papers_of(folder), nobody).whole
    assert not folder.exists()


def test_a_stopped_run_that_has_the_learner_is_removed(folder) -> None:
    papers = papers_of(folder)
    stopped = folder.rename(folder.with_name(f".{folder.name}.unfinished"))
    (stopped / ".request").write_text("x", encoding="utf-8")
    found, _ = find_folders([folder.parent])
    assert [one.path for one in found] == [stopped.resolve()]
    assert erase_from_folder(stopped, papers, nobody).whole
    assert not stopped.exists()


def test_numbered_papers_are_taken_out_by_code(tmp_path) -> None:
    (tmp_path / "piers.yaml").write_text(BANK, encoding="utf-8")
    words = ["issue", str(tmp_path / "piers.yaml"), "--learners", "3", "--out", str(tmp_path / "output")]
    assert CliRunner().invoke(main, words).exit_code == 0
    [folder] = [path for path in (tmp_path / "output").iterdir() if path.is_dir()]
    code = read_folder(folder).sitting.papers[1].code
    erase_from_folder(folder, papers_of(folder, code), nobody)
    assert mentions(folder, (code,)) == []
    assert len(json.loads((folder / "sitting.json").read_text(encoding="utf-8"))["papers"]) == 2


def test_kept_decisions_lose_the_learners_rows_and_no_others(folder) -> None:
    gone, other = papers_of(folder), papers_of(folder, "Amara Okafor")
    heads = ("code", "part", "marks", "reason", "comment", "written", "attempt", "marker", "by")
    rows = [(papers.codes[0], "1a", 1, "method shown", "", "7", 1, "first", "J. Marsh") for papers in (gone, other)]
    page = Page(title="Decisions kept", columns=dict.fromkeys(heads, 9), rows=rows)
    (folder / "for-tutor/decisions.xlsx").write_bytes(safe_workbook([page], "2026-01-05"))
    done = erase_from_folder(folder, gone, nobody)
    assert "for-tutor/decisions.xlsx" in done.remade
    assert "for-tutor/decisions.xlsx" not in done.look
    left = openpyxl.load_workbook(folder / "for-tutor/decisions.xlsx").active
    assert [row[0] for row in left.iter_rows(values_only=True)] == ["code", other.codes[0]]
