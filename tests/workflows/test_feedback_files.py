"""A sitting issued before this program asked as much of a bank is marked all the same."""

from __future__ import annotations

from pathlib import Path

import openpyxl
import pytest
from click.testing import CliRunner

from courseware.banks.guards import Guards
from courseware.cli import main

# By Pythagoras √(1000² + 1046.5²) = 1447.467…, and the working shows 1447.5.
BANK = """\
topic: Frames
aim: Work out a diagonal
exercises:
  - name: frame
    level: 1
    given: {wide: [1000, 1001], high: 1046.5 to 1051.5}
    pose: A frame is {{ wide }} mm by {{ high }} mm.
    parts:
      - name: long
        ask: How long is its diagonal?
        answer: diagonal(wide, high)
        unit: mm
        round: 0
        marks: 1
        working:
          - {say: To a tenth, value: "nearest(diagonal(wide, high), 0.1)"}
          - {say: To a millimetre, value: "nearest(diagonal(wide, high), 1)"}
"""


def test_marking_needs_no_proof_of_a_bank_as_it_was_issued(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("frames.yaml").write_text(BANK, encoding="utf-8")
    issue = ["issue", "frames.yaml", "--learners", "2", "--title", "Frames", "--date", "2026-01-05", "--jobs", "1"]
    assert CliRunner().invoke(main, issue).exit_code == 1
    with monkeypatch.context() as earlier:
        earlier.setattr(Guards, "misleads", lambda *_: None)
        done = CliRunner().invoke(main, issue)
        assert done.exit_code == 0, done.output
    sheet = Path("output/2026-01-05-frames/for-tutor/marking-sheet.xlsx")
    book = openpyxl.load_workbook(sheet)
    [column] = [cell.column for cell in book.active[1] if cell.value == "1a"]
    book.active.cell(2, column).value = "2046.5"
    book.save(sheet)
    done = CliRunner().invoke(main, ["mark", "output/2026-01-05-frames", "--assessor", "J. Marsh", "--jobs", "1"])
    assert done.exit_code == 0, done.output
    assert Path("output/2026-01-05-frames/marked/class-picture.pdf").is_file()
