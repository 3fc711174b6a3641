"""What goes wrong is told in plain words: what to do, and an exit code."""

import errno

import pytest

from courseware.banks import Fault, FileFaulty
from courseware.desk.messages import explain
from courseware.desk.shelf import NotFound
from courseware.papers.deal import CannotDeal
from courseware.papers.record import RecordFaulty
from courseware.printing.release import Leak


@pytest.mark.parametrize(
    ("error", "code", "says"),
    [
        (FileFaulty((Fault("a.yaml", 3, 5, "wrong", "expected right"),)), 2, "a.yaml:3:5: wrong; expected right\n1 fault found"),
        (NotFound("there is no bank x"), 2, "there is no bank x. Nothing was made."),
        (CannotDeal("no exercise of level 3"), 2, "no exercise of level 3"),
        (RecordFaulty("it was changed"), 2, "The record cannot be used: it was changed."),
        (OSError(errno.ENOSPC, "No space left on device", "x.pdf"), 3, "the disk is full; free some space (x.pdf)"),
        (OSError(errno.EACCES, "Permission denied", "out"), 3, "choose another with --out"),
        (OSError("cannot load library 'libpango-1.0-0': error 0x7e"), 3, "sudo apt install libpango-1.0-0"),
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
