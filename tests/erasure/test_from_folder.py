"""A learner is taken out of a sitting's folder so that no file in it holds the name, the reference or the code."""

from __future__ import annotations

import json
import re
import shutil
import stat
import zipfile
from collections.abc import Iterator
from io import BytesIO
from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner
from pikepdf import Dictionary, Pdf, Stream
from pypdf import PdfReader

from courseware.cli import main
from courseware.database.learner_lookup import Papers, whose
from courseware.database.written_files import WrittenFile, hash_of
from courseware.erasure.from_folder import erase_beside, erase_from_folder
from courseware.files.sitting_folders import find_folders, read_folder
from courseware.papers.sitting_file import SittingFaulty
from courseware.spreadsheets.xlsx_out import Page, safe_workbook

NAME, REFERENCE = "Łukasz O'Brien & Söhne", "B-0013/x"  # invented, with characters that files write otherwise
CLASS = f'Ref;Name\nA-0012;Amara Okafor\n{REFERENCE};"{NAME}"\nA-0014;=1+1\n'
BANK = """\
topic: Piers
aim: Work out the length of a pier
exercises:
  - name: pier-length
    level: 1
    given: {bricks: 2 to 9}
    pose: A pier is {{ bricks }} bricks long.
    parts:
      - name: length
        ask: How long is it?
        answer: pier(bricks)
        unit: mm
        marks: 2
        working:
          - {say: "Bricks and joints", value: bricks * module, earns: method}
          - {say: "One joint fewer", value: bricks * module - joint, earns: accuracy}
"""


@pytest.fixture(scope="session")
def issued(tmp_path_factory) -> Path:
    """An output folder as `issue` leaves it, with a sitting of three learners."""
    desk = tmp_path_factory.mktemp("desk")
    (desk / "class.csv").write_text(CLASS, encoding="utf-8")
    (desk / "piers.yaml").write_text(BANK, encoding="utf-8")
    words = ["issue", str(desk / "piers.yaml"), "--group", str(desk / "class.csv"), "--date", "2026-01-05", "--word"]
    done = CliRunner().invoke(main, [*words, "--out", str(desk / "output")])
    assert done.exit_code == 0, done.output
    return desk / "output"


@pytest.fixture
def folder(issued, tmp_path) -> Path:
    """A copy of the sitting's folder, its marking sheet filled in, and with what else may lie in one."""
    [made] = [path for path in issued.iterdir() if path.is_dir()]
    here = tmp_path / "output" / made.name
    shutil.copytree(issued, tmp_path / "output")
    sheet = here / "for-tutor/marking-sheet.xlsx"
    book = openpyxl.load_workbook(sheet)
    for row in range(2, 5):
        cell = next(cell for cell in book["Answers"][row] if heading(book, cell.column) == "1a")
        cell.value = f"typed in row {row}"
    book.save(sheet)
    shutil.copy(sheet, here / "for-tutor/second-marking-sheet.xlsx")
    return here


def heading(book, column: int) -> str:
    return str(book["Answers"].cell(1, column).value)


def papers_of(folder: Path, who: str = NAME) -> Papers:
    return whose(read_folder(folder).held, who)


def nobody() -> None:
    raise AssertionError("nobody else works in this folder")


def everything_in(file: Path) -> Iterator[str]:
    """All that a file says, packed or not: its name, its bytes, its pieces, its streams, the text of its pages."""
    data = file.read_bytes()
    yield str(file)
    yield data.decode("utf-8", "replace")
    yield data.decode("latin-1")
    if zipfile.is_zipfile(BytesIO(data)):
        with zipfile.ZipFile(BytesIO(data)) as pieces:
            for piece in pieces.namelist():
                yield piece
                yield unescaped(pieces.read(piece).decode("utf-8", "replace"))
    if data.startswith(b"%PDF"):
        with Pdf.open(file) as opened:
            for thing in opened.objects:
                if isinstance(thing, Stream):
                    yield thing.read_bytes().decode("latin-1") if "/Filter" not in thing or decodes(thing) else ""
                if isinstance(thing, Dictionary):
                    yield from (str(value) for value in thing.as_dict().values() if isinstance(value, str))
                yield str(thing)[:20000]
        yield from (page.extract_text() for page in PdfReader(BytesIO(data)).pages)


def decodes(stream: Stream) -> bool:
    return str(stream.get("/Filter")) in {"/FlateDecode", "[ /FlateDecode ]"}


def unescaped(text: str) -> str:
    from html import unescape

    return unescape(text)


def mentions(folder: Path, words: tuple[str, ...]) -> list[str]:
    """The files of a folder that hold any of the words, letters alone compared."""
    plain = [re.sub(r"\W", "", word).casefold() for word in words]
    return [
        str(file.relative_to(folder))
        for file in sorted(folder.rglob("*"))
        if file.is_file()
        for text in ["\n".join(everything_in(file))]
        if any(word in re.sub(r"\W", "", text).casefold() for word in plain)
    ]


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


def test_what_a_tutor_put_among_the_marks_stays(folder) -> None:
    (folder / "marked").mkdir()
    (folder / "marked/class-picture-notes.txt").write_text(f"{NAME}: look again", encoding="utf-8")
    (folder / "marked/class-picture.pdf").write_bytes(b"x")
    done = erase_from_folder(folder, papers_of(folder), nobody)
    assert done.look == ("marked/class-picture-notes.txt",)
    assert [path.name for path in (folder / "marked").iterdir()] == ["class-picture-notes.txt"]


def test_a_tutors_own_files_under_the_code_are_told_not_touched(folder) -> None:
    code = papers_of(folder).codes[0]
    (folder / f"audit-{code}").mkdir()
    (folder / f"audit-{code}" / f"copy of {code}.pdf").write_bytes(b"x")
    (folder / f"scan of {code.replace('-', '').lower()}.jpg").write_bytes(b"x")
    (folder / f"for-tutor/.key-{code}.pdf.77.part").write_bytes(b"half")
    done = erase_from_folder(folder, papers_of(folder), nobody)
    assert set(done.look) == {f"audit-{code}/copy of {code}.pdf", f"scan of {code.replace('-', '').lower()}.jpg"}
    assert all((folder / name).exists() for name in done.look)
    assert not list(folder.rglob("*.part")), "what a stopped run left of the program's own goes"


def test_a_tutors_own_tables_are_told_not_touched(folder) -> None:
    papers = papers_of(folder)
    table = f"code,remark\r\n{papers.codes[0]},fair\r\n".encode()
    (folder / "remarks.csv").write_bytes(table)
    (folder / "old.csv").write_bytes("Name;Ort\r\nZoë;Köln\r\n".encode("cp1252"))
    assert erase_from_folder(folder, papers, nobody).look == ("remarks.csv",)
    assert (folder / "remarks.csv").read_bytes() == table


def test_a_class_grid_that_cannot_be_made_any_more_goes(folder, monkeypatch) -> None:
    from courseware.erasure import from_folder

    def later_program(_: str) -> bytes:
        raise SittingFaulty("this version works the answers out otherwise")

    monkeypatch.setattr(from_folder, "print_grid", later_program)
    papers = papers_of(folder)
    assert "for-tutor/class-grid.pdf" in erase_from_folder(folder, papers, nobody).removed
    assert mentions(folder, papers.words) == []


def test_a_tutors_own_files_are_told_not_touched(folder) -> None:
    (folder / "notes.txt").write_text(f"{NAME} was late.", encoding="utf-8")
    (folder / "seating.txt").write_text("Row by row.", encoding="utf-8")
    (folder / "photo.jpg").write_bytes(b"\xff\xd8")
    (folder / "scan.pdf").write_bytes(b"%PDF-1.4 of another make")
    (folder / "broken.xlsx").write_bytes(b"PK not quite")
    assert erase_from_folder(folder, papers_of(folder), nobody).look == (
        "broken.xlsx",
        "notes.txt",
        "photo.jpg",
        "scan.pdf",
    )
    assert (folder / "notes.txt").exists()


def test_a_copy_of_a_sheet_is_told_not_touched(folder) -> None:
    shutil.copy(folder / "for-tutor/class-grid.pdf", folder / "printed-grid.pdf")
    assert erase_from_folder(folder, papers_of(folder), nobody).look == ("printed-grid.pdf",)
    assert (folder / "printed-grid.pdf").exists()


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


def test_the_last_learners_folder_stays_with_a_tutors_own_files(folder) -> None:
    (folder / "notes.txt").write_text("Mine.", encoding="utf-8")
    for who in ("Amara Okafor", "=1+1"):
        erase_from_folder(folder, papers_of(folder, who), nobody)
    done = erase_from_folder(folder, papers_of(folder), nobody)
    assert (done.whole, done.look) == (False, ("notes.txt",))
    assert [path.name for path in folder.iterdir()] == ["notes.txt"]


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


def noted(path: Path, *codes: str) -> WrittenFile:
    return WrittenFile(path=path, sha256=hash_of(path.read_bytes()), codes=codes)


def test_what_the_program_noted_goes_and_everything_else_is_told(folder) -> None:
    papers = papers_of(folder)
    code, out = papers.codes[0], folder.parent
    grid, sheet = folder / "for-tutor/class-grid.pdf", folder / "for-tutor/marking-sheet.xlsx"
    (out / f"learner-{code}").mkdir()
    export, audit = out / f"learner-{code}/learner.json", out / f"audit-{code}.pdf"
    export.write_text("{}", encoding="utf-8")
    audit.write_bytes(grid.read_bytes())
    plan, table = out / "sampling-plan-2026.pdf", out / "sampling-plan-2026.xlsx"
    shutil.copy(grid, plan)
    shutil.copy(sheet, table)
    notes = [noted(export, code), noted(audit, code), noted(plan), noted(table)]
    own = {  # a tutor's, whatever their names begin with
        "criteria-my-own.pdf": grid.read_bytes(),
        "criteria-notes.csv": f"{NAME};good\n".encode(),
        "sampling-plan-of-mine.xlsx": sheet.read_bytes(),
        f"audit-{code}-notes.txt": b"seen",
    }
    for name, data in own.items():
        (out / name).write_bytes(data)
    done = erase_beside([out], papers, notes)
    assert set(done.removed) == {str(export), str(audit), str(plan)}
    assert done.remade == (str(table),)
    assert not export.parent.exists()
    assert {Path(name).name for name in done.look} == set(own)
    assert {name: (out / name).read_bytes() for name in own} == own


def test_a_noted_file_that_was_changed_since_is_a_tutors_own(folder) -> None:
    papers, out = papers_of(folder), folder.parent
    plan = out / "criteria-map-2026-01-05.csv"
    plan.write_text(f"{NAME};secure\n", encoding="utf-8")
    note = noted(plan)
    plan.write_text(f"{NAME};secure\nmy remark\n", encoding="utf-8")
    done = erase_beside([out], papers, [note])
    assert (done.removed, done.remade, done.look) == ((), (), (str(plan),))


def test_another_learners_export_that_names_this_one_is_told(folder) -> None:
    papers, out = papers_of(folder), folder.parent
    other = next(p.code for p in read_folder(folder).sitting.papers if p.code not in papers.codes)
    (out / f"learner-{other}").mkdir()
    export = out / f"learner-{other}/learner.json"
    export.write_text(json.dumps({"written": f"copied from {NAME}"}, ensure_ascii=False), encoding="utf-8")
    assert erase_beside([out], papers, [noted(export, other)]).look == (str(export),)
    assert export.exists()


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
