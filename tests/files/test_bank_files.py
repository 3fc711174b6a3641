"""Banks read from their files, for the centre's settings."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from courseware.banks import read_bank
from courseware.files.bank_files import NotFound, find_banks, read_banks, read_file
from courseware.settings.settings import Retention, Settings


def test_banks_are_compiled_once_for_their_file_and_for_the_sitting_that_keeps_their_text() -> None:
    """Settings that print nothing on a paper, such as for how long records are kept, make no other bank of it."""
    settings = Settings(arris_rule="near", retention=Retention(names=12), mortar="cement")
    [bank], _ = read_banks(find_banks(["mitre_template"]), settings)
    assert bank.settings == Settings(arris_rule="near")
    assert read_bank(bank.text.encode(), bank.file, settings.of_a_sitting()) is bank


def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "class.csv")
    with pytest.raises(NotFound, match="is a pipe, not a file: save what comes out of it"):
        read_file(tmp_path / "class.csv")
