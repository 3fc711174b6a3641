"""The samples of hostile files that lie beside the project where it is developed: each answered, none with a traceback."""

from pathlib import Path

import pytest
from click.testing import CliRunner

from courseware.cli import main

HOSTILE = Path(__file__).parents[2] / "shared" / "hostile"
pytestmark = pytest.mark.skipif(not HOSTILE.is_dir(), reason="the samples are not part of the project")


@pytest.mark.parametrize("file", sorted((HOSTILE / "yaml").glob("*")), ids=lambda file: file.name)
def test_a_hostile_bank_is_refused_with_its_line(file) -> None:
    done = CliRunner().invoke(main, ["check", str(file)])
    assert isinstance(done.exception, SystemExit)
    assert done.exit_code == 2
    assert f"{file.name}:" in done.output
    assert not set(done.output) & {chr(code) for code in (*range(9), 27, 0x202E, 0x200B)}


@pytest.mark.parametrize("file", sorted((HOSTILE / "classlists").glob("*")), ids=lambda file: file.name)
def test_a_hostile_class_list_is_read_or_refused_with_its_line(file, tmp_path, monkeypatch) -> None:
    monkeypatch.chdir(tmp_path)
    words = [
        "issue",
        "opening_sizes",
        "--pick",
        "opening-for-a-panel",
        "--group",
        str(file),
        "--jobs",
        "1",
        "--out",
        "no/out",
    ]
    monkeypatch.setattr("courseware.workflows.issuing.issue", lambda *_, **__: (tmp_path, False))
    done = CliRunner().invoke(main, words)
    assert done.exception is None or isinstance(done.exception, SystemExit)
    assert done.exit_code == 0 or (done.exit_code == 2 and f"{file.name}:" in done.output), done.output
