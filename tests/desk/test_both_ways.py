"""What is done at the desk and by commands comes to the same: rows of the record and files, to the byte.

Two copies of one folder of work: at one somebody sits at the desk, in the other the commands are given. After each
thing done the two records hold the same rows but for their times, and at the end the two folders the same files.
"""

from __future__ import annotations

import re
import shutil
import zipfile
from collections.abc import Iterator, Mapping
from fnmatch import fnmatch
from html import unescape
from itertools import zip_longest
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from click.testing import CliRunner
from sqlalchemy import select

from courseware.cli import main
from courseware.database.connection import reading
from courseware.database.tables import METADATA
from courseware.files.record_location import opened, record_url
from courseware.files.sitting_files import SECOND_SHEET, TUTOR
from courseware.files.sitting_folders import SittingFolder, read_folder
from courseware.jobs.plan import plan_of
from courseware.workflows.jobs import find_job
from courseware.workflows.waiting import waiting
from tests.desk.conftest import Sitter, desk_over, finished, words
from tests.jobs.filled_sheet import filled
from tests.workflows.filled_marks import fill, filled_in

WHO = "J. Marsh"
TIMES = {"at", "taken_at"}
OF_ITS_MOMENT = ("record.sqlite", "learner-*/learner.*")  # they hold the times of what was done


class Both:
    """A folder of work twice: `sitter` is at the desk over one, commands are given in the other."""

    def __init__(self, made: Path, folder: Path, patch: pytest.MonkeyPatch) -> None:
        self.desk_folder, self.command_folder = (
            Path(shutil.copytree(made, folder / way)) for way in ("desk", "command")
        )
        self.sitter = Sitter(desk_over(self.desk_folder)).come_in()
        patch.chdir(self.command_folder)
        patch.setattr("secrets.token_hex", lambda size: "5e" * size)  # both deal by the same seed

    def where(self, date: str, folder: Path | None = None) -> SittingFolder:
        [found] = ((folder or self.desk_folder) / "output").glob(f"{date}*")
        return read_folder(found)

    def desk(self, address: str, fields: dict[str, Any] | None = None, **more: Any) -> str:
        """Sends a form, waits for what it begins, and gives where it led."""
        answer = self.sitter.fill(address, fields, **more)
        assert answer.status_code == 303, words(answer.text)
        led = str(answer.headers["location"])
        if led.startswith("/work/"):
            told = finished(self.sitter, answer)
            job = self.sitter.desk.jobs.find(led.removeprefix("/work/"))
            assert job is not None
            assert job.state == "done", told
        return led

    def same(self, *command: str) -> None:
        """Gives the command, and holds the two records against each other."""
        done = CliRunner().invoke(main, list(command), catch_exceptions=False)
        assert done.exit_code == 0, done.output
        ours, theirs = self.rows(self.desk_folder), self.rows(self.command_folder)
        unlike = [
            f"{table}.{key}: {one.get(key)} | {other.get(key)}"
            for table, rows in ours.items()
            for one, other in zip_longest(rows, theirs[table], fillvalue={})
            for key in one | other
            if one.get(key) != other.get(key)
        ]
        assert unlike == [], f"after {' '.join(command)}"

    def rows(self, folder: Path) -> dict[str, list[dict[str, Any]]]:
        """All rows of a record but for their times, and for files those that are the same at each making."""
        with opened(record_url(None, folder / "output"), make=False) as engine, reading(engine) as connection:
            return {
                name: [
                    {key: value for key, value in row.items() if key not in TIMES and not _of_its_moment(row, key)}
                    for row in connection.execute(select(table)).mappings()
                ]
                for name, table in METADATA.tables.items()
                if name != "step"
            }


@pytest.fixture
def both(made_work: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Both]:
    monkeypatch.delenv("COURSEWARE_RECORD", raising=False)
    two = Both(made_work, tmp_path, monkeypatch)
    yield two
    two.sitter.desk.jobs.close()


def _of_its_moment(row: Mapping[Any, Any], key: str) -> bool:
    return key == "sha256" and any(fnmatch(row["path"], f"*{one}") for one in OF_ITS_MOMENT)


def sent(file: Path, name: str) -> dict[str, Any]:
    return {"files": {name: (file.name, file.read_bytes())}}


def test_every_change_comes_to_the_same_by_both_ways(both: Both) -> None:
    where, issued = both.where("2026-01-05"), both.where("2026-02-02")
    papers_change(both, issued, where)
    answers_are_marked(both, where)
    two_mark(both, where)
    marks_are_looked_at(both, where)
    data_is_kept(both, where, issued)
    found = differing(both)
    assert found == [], "\n".join(found)


def papers_change(both: Both, issued: SittingFolder, where: SittingFolder) -> None:
    folder, at = f"output/{issued.path.name}", f"/sittings/{issued.sitting.code}"
    codes = [paper.code for paper in issued.sitting.papers]
    both.desk(f"{at}/join", {"name": "Amina Diallo", "reference": "A9"})
    both.same("join", folder, "--name", "Amina Diallo", "--reference", "A9", "--by", WHO)
    both.desk(f"{at}/rename", {"paper": codes[1], "name": "Lukas Wojcik", "reference": "A2"})
    both.same("rename", folder, codes[1], "--name", "Lukas Wojcik", "--reference", "A2")
    both.desk(f"{at}/again", {"paper": codes[2]})
    both.same("again", folder, "--for", codes[2])
    first = where.sitting.papers[0].code
    both.desk(f"/sittings/{where.sitting.code}/retake", {"paper": [first], "date": "2026-03-02"})
    both.same("issue", "--retake", f"output/{where.path.name}", "--for", first, "--date", "2026-03-02", "--by", WHO)
    enter = f"/keep/register/{issued.sitting.code}/enter"
    for code, entry, option, until in (
        (codes[0], "absent", "--absent", ()), (codes[1], "late", "--late", ("2026-03-09",)),
        (codes[2], "withdrawn", "--withdraw", ()), (codes[0], "back", "--undo", ()),
    ):  # fmt: skip
        both.desk(enter, {"paper": code, "entry": entry, "until": "".join(until), "reason": "unwell"})
        days = ("--until", *until) if until else ()
        both.same("register", folder, option, code, "--reason", "unwell", "--by", WHO, *days)


def answers_are_marked(both: Both, where: SittingFolder) -> None:
    """What waits is decided, and the first part of the first paper besides: it was settled by rule."""
    folder, at, code = f"output/{where.path.name}", f"/sittings/{where.sitting.code}", where.sitting.papers[0].code
    both.desk(f"{at}/mark")
    both.same("mark", folder, "--by", WHO)
    with opened(both.sitter.desk.record(), make=False) as engine:
        asked = [(one.code, one.label) for one in waiting(engine, where)]
    decided: list[str] = []
    for paper, label in dict.fromkeys([*asked, (code, "1a")]):
        written = re.findall(r'name="written" value="([^"]*)"', both.sitter.get(f"{at}/waiting/{paper}/{label}").text)
        given = {"written": unescape(written[0]), "marks": "1", "reason": "Method shown"}
        both.desk(f"{at}/waiting/{paper}/{label}/decide", given)
        decided += ["--decide", paper, label, "1", "Method shown"]
    both.desk(f"{at}/mark")
    both.same("mark", folder, *decided, "--by", WHO)


def two_mark(both: Both, where: SittingFolder) -> None:
    folder, at = f"output/{where.path.name}", f"/sittings/{where.sitting.code}/markers"
    both.desk(f"{at}/second/sheet")
    both.same("mark", folder, "--second")
    blank = both.desk_folder / folder / TUTOR / SECOND_SHEET
    sheet = fill(blank, "second.xlsx")
    both.desk(f"{at}/second/enter", {"by": "P. Dunn"}, **sent(sheet, "sheet"))
    both.same("mark", folder, "second.xlsx", "--second", "--by", "P. Dunn")
    [differences] = (both.command_folder / folder).rglob("two-markers.xlsx")
    book = openpyxl.load_workbook(differences)
    book["Decisions"]["C2"], book["Decisions"]["D2"] = 2, "Agreed: the working is there"
    book.save("agreed.xlsx")
    both.desk(f"{at}/settled", **sent(Path("agreed.xlsx"), "sheet"))
    both.same("mark", folder, "agreed.xlsx", "--by", WHO)


def marks_are_looked_at(both: Both, where: SittingFolder) -> None:
    folder, at, code = f"output/{where.path.name}", f"/sittings/{where.sitting.code}", where.sitting.papers[1].code
    both.desk("/keep/sampling/draw", {"sitting": [where.sitting.code], "size": "1", "seed": "drawn"})
    both.same("sample", where.sitting.code, "--papers", "1", "--seed", "drawn")
    drawn = next((both.command_folder / "output").glob("sampling-plan-*.xlsx"))
    plan = Path(shutil.copy(drawn, "plan.xlsx"))
    filled_in(plan)
    looked = both.sitter.fill("/keep/results/look", **sent(plan, "plan")).text
    both.desk("/keep/results/enter", {"sheet": re.findall(r'name="sheet" value="(\w+)"', looked)[0]})
    both.same("sample", "--results", str(plan))
    both.desk(f"{at}/confirm")
    both.same("confirm", folder, "--by", WHO)
    both.desk(f"{at}/release")
    both.same("release", folder, "--by", WHO)
    both.desk(f"{at}/take-back", {"reason": "looked at again", "paper": where.sitting.papers[0].code})
    both.same("release", folder, "--for", where.sitting.papers[0].code, "--undo", "looked at again", "--by", WHO)
    both.desk(f"/keep/appeals/{code}/open", {"reason": "1a was right"})
    both.same("appeal", folder, code, "--reason", "1a was right", "--by", WHO)
    blank = next((both.command_folder / "output").glob(f"appeal-{code}-*/re-mark-{code}.xlsx"))
    sheet = fill(blank, "again.xlsx", outcome={"outcome": "changed", "date": "2026-02-09", "reason": "sound"})
    looked = both.sitter.fill(f"/keep/appeals/{code}/look", {"by": "R. Holt"}, **sent(sheet, "sheet")).text
    handle = re.findall(r'name="sheet" value="(\w+)"', looked)[0]
    both.desk(f"/keep/appeals/{code}/end", {"sheet": handle, "by": "R. Holt"})
    both.same("appeal", folder, code, "again.xlsx", "--by", "R. Holt")


def data_is_kept(both: Both, where: SittingFolder, issued: SittingFolder) -> None:
    results, code = "/jobs/examples/porch-panel/results", where.sitting.papers[0].code
    Path("amara.xlsx").write_bytes(filled(plan_of(find_job("porch-panel"))))
    both.desk(f"{results}/sheets", **sent(Path("amara.xlsx"), "sheets"))
    both.same("observe", "porch-panel", "amara.xlsx")
    both.desk(f"{results}/withdraw", {"paper": code, "on": "2026-02-03", "reason": "another's"})
    both.same(
        "observe", "porch-panel", "--learner", code, "--date", "2026-02-03", "--withdraw", "--reason", "another's",
        "--by", WHO,
    )  # fmt: skip
    both.desk("/keep/times/keep", {"kind": "names", "months": "24"})
    both.same("record", "keep", "names", "24", "--by", WHO)
    gone = issued.sitting.papers[3].code
    both.desk(f"/keep/learners/{gone}/export")
    both.same("record", "export", gone)
    seen = re.findall(r'name="seen" value="(\w+)"', both.sitter.get(f"/keep/learners/{gone}/delete").text)[0]
    both.desk(f"/keep/learners/{gone}/delete/now", {"seen": seen, "sure": "yes"})
    both.same("record", "delete", gone, "--yes")


def content(file: Path) -> bytes | dict[str, bytes]:
    """A file's bytes; a workbook's apart from the time at which it was saved, as deleting a learner saves it again."""
    if file.suffix != ".xlsx":
        return file.read_bytes()
    with zipfile.ZipFile(file) as book:
        return {name: book.read(name) for name in book.namelist() if name != "docProps/core.xml"}


def differing(both: Both) -> list[str]:
    """The files that one folder has and the other has not, or has otherwise."""
    ours, theirs = (
        {str(file.relative_to(folder)): content(file) for file in folder.rglob("*") if file.is_file()}
        for folder in (both.desk_folder / "output", both.command_folder / "output")
    )
    return sorted(
        name
        for name in ours | theirs
        if ours.get(name) != theirs.get(name) and not any(fnmatch(name, one) for one in OF_ITS_MOMENT)
    )
