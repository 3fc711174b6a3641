"""A sitting's files counted: each kind that is there, its drawings, its own margins; what is missing or damaged is told."""

from __future__ import annotations

import re
import shutil
from dataclasses import replace
from math import ceil
from pathlib import Path

import pytest
from pikepdf import Pdf

from courseware.files.sitting_files import ALL_PAPERS, GRID, feedback_file, key_file, paper_file
from courseware.files.sitting_folders import SittingFolder, read_folder
from courseware.papers.sheet_format import SheetFormat
from courseware.papers.sitting import IssuedPaper
from courseware.papers.sitting_file import SittingFaulty, write_sitting
from courseware.printing.page_format import A4
from courseware.workflows import issuing
from courseware.workflows.sides import count_sides


@pytest.fixture(scope="module")
def issued(tmp_path_factory, dealt) -> SittingFolder:
    """A sitting of three learners with all its PDFs, the third of them in large print."""
    sitting = dealt("opening_sizes", exercises=3)
    third = sitting.papers[2]
    large = replace(third, learner=replace(third.learner, sheets=SheetFormat(size=18)))
    sitting = replace(sitting, papers=(*sitting.papers[:2], large))
    out = tmp_path_factory.mktemp("output")
    return read_folder(issuing.again(write_sitting(sitting), sitting, out, 1, lambda _: None, lambda: None))


@pytest.fixture
def where(issued, tmp_path) -> SittingFolder:
    """Its folder to do as one likes in."""
    return replace(issued, path=Path(shutil.copytree(issued.path, tmp_path / "sitting")))


def pages(file: Path) -> int:
    with Pdf.open(file) as opened:
        return len(opened.pages)


def test_papers_keys_and_grid_are_counted_page_by_page(issued, heard) -> None:
    found = count_sides(issued, 1, heard)
    codes = [paper.code for paper in issued.sitting.papers]
    papers, keys, grid = found.kinds
    assert [kind.kind for kind in found.kinds] == ["papers", "keys", "class grid"]
    assert [file.sides for file in papers.files] == [pages(issued.path / paper_file(code)) for code in codes]
    assert [file.sides for file in keys.files] == [pages(issued.path / key_file(code)) for code in codes]
    assert [file.sides for file in grid.files] == [pages(issued.path / GRID)]
    assert found.faults == ()
    assert heard.work == {"Counting": (7, 7)}


def test_all_together_is_the_sum_and_each_file_begins_on_a_new_sheet_of_paper(issued, heard) -> None:
    found = count_sides(issued, 1, heard)
    each = [file.sides for kind in found.kinds for file in kind.files]
    assert found.in_all.sides == sum(each)
    assert found.in_all.sheets == sum(ceil(sides / 2) for sides in each)
    assert found.kinds[0].sheets * 2 == pages(issued.path / ALL_PAPERS) + pages(issued.path / ALL_PAPERS) % 2
    assert min(kind.white for kind in found.kinds) < found.in_all.white < max(kind.white for kind in found.kinds)


def test_a_papers_drawings_are_those_that_its_bank_gives_its_exercises(issued, heard) -> None:
    """Counted in the bank's own text: an exercise's drawing is a key of four blanks' depth below its name."""
    own = "".join(bank.text for bank in issued.sitting.banks)
    exercises = re.findall(r"(?ms)^  - name: (\S+)$(.*?)(?=^  - name: |\Z)", own)
    drawn = {name for name, body in exercises if re.search(r"(?m)^    drawing:", body)}
    wanted = tuple(sum(one.exercise in drawn for one in paper.exercises) for paper in issued.sitting.papers)
    papers, keys, grid = count_sides(issued, 1, heard).kinds
    assert papers.drawings == wanted
    assert sum(wanted) > 0
    assert keys.drawings == grid.drawings == ()


def test_each_paper_goes_by_the_margins_of_its_own_format(issued, heard) -> None:
    """Large print has a line of large type at its foot: 34 mm below the text where others have 15."""
    first, _, large = count_sides(issued, 1, heard).kinds[0].files
    assert first.rows == first.sides * (297 - A4.top - A4.bottom)
    assert large.rows == large.sides * (297 - A4.top - 34)


def test_who_was_absent_has_no_feedback_sheet_and_none_is_missed(where, heard) -> None:
    first, *_ = where.sitting.papers
    (where.path / "marked").mkdir()
    shutil.copy(where.path / key_file(first.code), where.path / feedback_file(first.code))
    shutil.copy(where.path / key_file(first.code), where.path / "marked/class-picture.pdf")
    found = count_sides(where, 1, heard)
    assert [(kind.kind, len(kind.files)) for kind in found.kinds[3:]] == [("feedback", 1), ("class picture", 1)]
    assert found.faults == ()


def test_a_missing_paper_is_named_and_the_others_are_counted(where, heard) -> None:
    lost = paper_file(where.sitting.papers[1].code)
    (where.path / lost).unlink()
    found = count_sides(where, 1, heard)
    assert found.faults == (f"{lost} is not there.",)
    assert len(found.kinds[0].files) == len(found.kinds[0].drawings) == 2


def test_where_no_paper_is_there_none_is_missed(where, heard) -> None:
    shutil.rmtree(where.path / "for-learners")
    found = count_sides(where, 1, heard)
    assert [kind.kind for kind in found.kinds] == ["keys", "class grid"]
    assert found.faults == ()


def test_what_is_damaged_is_named_and_all_else_is_counted(where, heard) -> None:
    torn, empty = paper_file(where.sitting.papers[0].code), key_file(where.sitting.papers[1].code)
    whole = (where.path / torn).read_bytes()
    (where.path / torn).write_bytes(whole[: len(whole) // 2])
    (where.path / empty).write_bytes(b"")
    found = count_sides(where, 1, heard)
    assert found.faults == (f"{torn} and {empty} cannot be read: damaged, or no sheet of this program.",)
    assert [len(kind.files) for kind in found.kinds] == [2, 2, 1]


def test_a_folder_without_pdfs_says_so(where, heard) -> None:
    for room in ("for-learners", "for-tutor"):
        shutil.rmtree(where.path / room)
    found = count_sides(where, 1, heard)
    assert found.kinds == ()
    assert found.faults == (f"None of the sitting's PDFs is in {where.path}.",)


@pytest.mark.parametrize(("missing", "ends"), [(6, "-5.pdf and {}-6.pdf are not there."), (7, "-6.pdf and 1 more are not there.")])  # fmt: skip
def test_six_files_are_named_at_most(where, heard, missing: int, ends: str) -> None:
    first = where.sitting.papers[0]
    lost: list[IssuedPaper] = [replace(first, code=f"LOST-{number}") for number in range(1, missing + 1)]
    more = replace(where, sitting=replace(where.sitting, papers=(*where.sitting.papers, *lost)))
    papers, keys = count_sides(more, 1, heard).faults
    assert papers.startswith("for-learners/paper-LOST-1.pdf, ")
    assert papers.endswith(ends.format("for-learners/paper-LOST"))
    assert keys.endswith(ends.format("for-tutor/key-LOST"))


def test_a_sitting_changed_by_hand_is_refused(where, heard) -> None:
    name = where.sitting.papers[0].exercises[0].exercise
    changed = replace(where, text=where.text.replace(f'"exercise": "{name}"', '"exercise": "no-such-exercise"'))
    assert changed.text != where.text
    with pytest.raises(SittingFaulty):
        count_sides(changed, 1, heard)
