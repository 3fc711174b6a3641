"""What the program wrote goes or is cleaned; a tutor's own files that name the learner are told of and never touched."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

from courseware.database.written_files import WrittenFile, hash_of
from courseware.erasure.from_folder import erase_beside, erase_from_folder
from courseware.files.sitting_folders import read_folder
from tests.erasure.conftest import NAME, nobody, papers_of


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


def test_the_last_learners_folder_stays_with_a_tutors_own_files(folder) -> None:
    (folder / "notes.txt").write_text("Mine.", encoding="utf-8")
    for who in ("Amara Okafor", "=1+1"):
        erase_from_folder(folder, papers_of(folder, who), nobody)
    done = erase_from_folder(folder, papers_of(folder), nobody)
    assert (done.whole, done.look) == (False, ("notes.txt",))
    assert [path.name for path in folder.iterdir()] == ["notes.txt"]


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
