"""What goes wrong is told in plain words: what to do, and an exit code."""

import errno

import pytest

from courseware.banks import Fault, FileFaulty, prove, read_bank
from courseware.files.bank_files import NotFound
from courseware.papers.deal import CannotDeal
from courseware.papers.sitting_file import SittingFaulty
from courseware.printing.leak_check import Leak
from courseware.printing.workers import Sheet, WorkersDied
from courseware.workflows.in_a_child import TookTooLong
from courseware.workflows.messages import explain, failure_line, keep_details
from tests.commands.conftest import BANK


@pytest.mark.parametrize(
    ("error", "code", "says"),
    [
        (FileFaulty((Fault("a.yaml", 3, 5, "wrong", "expected right"),)), 2, "a.yaml:3:5: wrong; expected right\n1 fault found"),
        (NotFound("there is no bank x"), 2, "there is no bank x. Nothing was made."),
        (CannotDeal("no exercise of level 3"), 2, "no exercise of level 3"),
        (SittingFaulty("it was changed"), 2, "The sitting cannot be used: it was changed."),
        (OSError(errno.ENOSPC, "No space left on device", "x.pdf"), 3, "the disk is full; free some space (x.pdf)"),
        (OSError(errno.EACCES, "Permission denied", "out"), 3, "choose another (out)"),
        (OSError("cannot load library 'libpango-1.0-0': error 0x7e"), 3, "sudo apt install libpango-1.0-0"),
        (WorkersDied([Sheet(place=0, key=False), Sheet(place=6, key=True)]), 3, "Stopped: paper 1 and key 7 could not be made"),
        (WorkersDied([Sheet(place=n, key=False) for n in range(6)]), 3, "paper 5 and paper 6 could not be made"),
        (WorkersDied([Sheet(place=n, key=False) for n in range(7)]), 3, "paper 6 and 1 more could not be made"),
        (TookTooLong("the proof took longer than 300 seconds"), 2, "longer than 300 seconds. Nothing was made."),
        (Leak("a learner's sheet holds '910'"), 3, "was not released"),
    ],
)  # fmt: skip
def test_what_may_be_expected_is_explained(error, code, says) -> None:
    message, given = explain(error)
    assert given == code
    assert says in message


def test_a_fault_of_the_program_is_not_dressed_up() -> None:
    assert explain(KeyError("x")) == (None, None)
    assert explain(OSError(errno.EIO, "Input/output error")) == (None, None)


def test_a_fault_of_the_program_is_kept_in_a_file_and_told_in_one_line(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    try:
        raise KeyError("x")
    except KeyError as error:
        line = keep_details(error)
    [kept] = tmp_path.iterdir()
    assert str(kept) in line
    assert "\n" not in line
    assert "Traceback" in kept.read_text(encoding="utf-8")
    assert kept.stat().st_mode & 0o077 == 0


def test_details_that_cannot_be_kept_are_no_second_fault(tmp_path, monkeypatch) -> None:
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path / "gone"))
    assert "could not be written to a file" in keep_details(KeyError("x"))


def test_a_failure_names_its_file_line_exercise_and_variant() -> None:
    """Two bricks: 2 × 225 − 10 = 440 mm; the working comes to 430."""
    wrong = read_bank(BANK.replace("bricks * module - joint,", "bricks * module - 2 * joint,").encode(), "piers.yaml")
    [exercise] = wrong.exercises
    line = failure_line(exercise, prove(exercise).failure)
    assert line.startswith("piers.yaml:4: pier-length, variant 0 (bricks = 2): ")
    assert "440" in line
    assert "430" in line
