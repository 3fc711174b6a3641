"""The register of a sitting by whoever asks: learners are named as a tutor names them."""

from __future__ import annotations

import errno
from pathlib import Path

import pytest

from courseware.database.opening import open_record
from courseware.database.register import names_by_reference
from courseware.files.bank_files import NotFound
from courseware.workflows.register import (
    confirm_scripts,
    enter,
    papers_named,
    register_lines,
    release_scripts,
    take_in,
    take_scripts_back,
)


class Told:
    """A watch that keeps its notes; nobody else works in the folder."""

    def __init__(self) -> None:
        self.notes: list[str] = []

    def note(self, text: str) -> None:
        self.notes.append(text)

    def waiting(self) -> None:
        raise AssertionError("nobody else works here")

    def progress(self, what: str, total: int):
        raise AssertionError("it takes no time")


@pytest.fixture
def engine(place):
    """The record of a sitting: the first learner all right, the second with a wrong start, the third absent."""
    found = open_record("sqlite:///output/record.sqlite")
    yield found
    found.dispose()


def words(engine, place) -> list[str]:
    return [line.words for line in register_lines(engine, place.sitting.code)]


def test_each_paper_stands_with_the_state_of_its_script(engine, place) -> None:
    assert words(engine, place) == ["marked", "marked", "absent"]


def test_a_class_is_confirmed_released_and_one_script_taken_back(engine, place) -> None:
    code = place.sitting.code
    first, second, _ = place.sitting.papers
    assert confirm_scripts(engine, code, (), by="J. Marsh").codes == (first.code, second.code)
    assert release_scripts(engine, code, ["amara okafor", second.code], by="Q. Adeyemi").left == ()
    take_scripts_back(engine, code, [second.code.replace("-", " ").lower()], reason=" a wrong total ", by="J. Marsh")
    assert words(engine, place) == ["released by Q. Adeyemi", "marked", "absent"]


def test_an_entry_is_made_by_name(engine, place) -> None:
    third = place.sitting.papers[2]
    entered = enter(engine, place.sitting.code, third.learner.name, "late", due="2026-01-19", reason="ill", by="J. M.")
    assert (entered.code, entered.due) == (third.code, "2026-01-19")
    assert words(engine, place)[2] == "late: ill"


def test_a_name_that_is_nobodys_is_told(engine, place) -> None:
    with pytest.raises(NotFound, match=r"^no learner of the sitting is called Nobody; give the code of the paper$"):
        papers_named(engine, place.sitting.code, ["Nobody"])
    assert papers_named(engine, place.sitting.code, ()) == ()
    assert names_by_reference(engine) == {}


@pytest.mark.parametrize(
    ("fault", "told"), [(errno.ENOSPC, "the disk is full"), (errno.EROFS, "may not be written to")]
)
def test_papers_that_the_record_has_no_room_for_are_issued_and_not_to_be_issued_again(
    place, monkeypatch, fault, told
) -> None:
    def full(*_: object, **__: object) -> None:
        raise OSError(fault, "no", "record.sqlite")

    monkeypatch.setattr("courseware.workflows.register.take", full)
    watch = Told()
    take_in(place.path, watch)
    [note] = watch.notes
    assert told in note
    assert "Do not issue them again" in note
    assert f"courseware record take {place.path} --out {Path('output').resolve()}" in note


def test_a_fault_of_which_nothing_is_known_is_not_hidden(place, monkeypatch) -> None:
    def faulty(*_: object, **__: object) -> None:
        raise OSError("no advice on this")

    monkeypatch.setattr("courseware.workflows.register.take", faulty)
    with pytest.raises(OSError, match="no advice"):
        take_in(place.path, Told())
