"""`courseware criteria`: a centre's own criteria against parts and learners' evidence."""

from __future__ import annotations

from pathlib import Path

from tests.a_centres_criteria import CRITERIA
from tests.commands.conftest import run


def test_faults_in_a_criteria_file_are_told_with_their_places(tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    Path("centre.yaml").write_text(CRITERIA.replace("part: pier_length", "part: pier_lenght"), encoding="utf-8")
    done = run("criteria", "centre.yaml")
    assert done.exit_code == 2
    assert "centre.yaml:6:" in done.output
    assert "did you mean `pier_length`?" in done.output
    assert "nothing was made" in done.output
    assert not Path("output").exists()
