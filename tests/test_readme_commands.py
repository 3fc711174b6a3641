"""Every command of the manual, run as it stands there, one after another in a fresh folder."""

from __future__ import annotations

import shlex
from dataclasses import replace
from pathlib import Path

from click.testing import CliRunner

from courseware.cli import main
from courseware.marking.invented_scripts import invented_scripts, plain_figure
from courseware.marking.marking_sheet import marking_sheet
from courseware.papers.part_kind import holds_figure
from courseware.papers.sitting_file import read_sitting
from tests.test_readme import commands, fresh_folder  # noqa: F401

OF_THEIR_OWN = {"courseware demo", "courseware check", "courseware desk"}  # run by tests of their own


def test_every_command_of_the_manual_runs_as_it_stands(fresh_folder, few_questions) -> None:  # noqa: F811
    told = commands()
    told.sort(key=lambda line: line.split()[1] == "again")  # what is made again must be there first
    told = [line for line in told if line not in OF_THEIR_OWN]
    for line in told:
        words = shlex.split(line)[1:]
        if words[0] == "mark":
            fill_in(Path(words[1]))
        if "CODE" in words:
            [folder] = Path("output").glob("2026-01-12*")
            words[words.index("CODE")] = (
                read_sitting((folder / "sitting.json").read_text(encoding="utf-8")).papers[0].code
            )
        done = CliRunner().invoke(main, words)
        assert done.exit_code == 0, (line, done.output)


def fill_in(folder: Path) -> None:
    """Invented answers in a sitting's marking sheet, as an assessor would have typed them; the first paper's are right."""
    sitting = read_sitting((folder / "sitting.json").read_text(encoding="utf-8"))
    first, *others = invented_scripts(sitting)
    parts = sitting.papers[0].parts
    right = {part.label: plain_figure(part.answer) if holds_figure(part) else part.answer for part in parts}
    scripts = (replace(first, cells=right), *others)
    (folder / "for-tutor" / "marking-sheet.xlsx").write_bytes(marking_sheet(sitting, scripts))
