"""`courseware criteria`: a centre's own criteria against parts and learners' evidence."""

from __future__ import annotations

from pathlib import Path

from pypdf import PdfReader

from tests.commands.conftest import run

NAMES = ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe")  # as the shared fixture deals them; invented
CRITERIA = """\
criteria:  # invented codes
  - code: BRK-1.1
    says: Works out openings and piers so that no brick is cut
    evidence:
      - {topic: Opening sizes, exercise: opening-for-a-panel}
      - {topic: opening_sizes, exercise: wall-between-two-wings, part: pier_length}
  - code: BRK-1.2
    says: Builds a panel within the tolerances
    evidence: [{job: porch-panel, line: joints}]
  - code: BRK-1.3
    says: Works safely
"""


def text_of(file: Path) -> str:
    return "\n".join(page.extract_text() for page in PdfReader(file).pages)


def test_faults_in_a_criteria_file_are_told_with_their_places(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("centre.yaml").write_text(CRITERIA.replace("part: pier_length", "part: pier_lenght"), encoding="utf-8")
    done = run("criteria", "centre.yaml")
    assert done.exit_code == 2
    assert "centre.yaml:6:" in done.output
    assert "did you mean `pier_length`?" in done.output
    assert "nothing was made" in done.output
    assert not Path("output").exists()
