"""The class grid of any size: one tagged document, or slices of a large class joined, every learner once and in order."""

from __future__ import annotations

from io import BytesIO

import pytest
from pikepdf import Pdf

from courseware.banks import prove
from courseware.files.bank_files import find_banks, read_banks
from courseware.papers.deal import Choosing, Heads, choose, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.sitting import Sitting
from courseware.papers.sitting_file import write_sitting
from courseware.printing import workers
from courseware.printing.leak_check import page_text
from courseware.printing.workers import GRID_LEARNERS, print_grid


@pytest.fixture(scope="module")
def class_of():
    """A sitting of one short exercise for so many numbered learners."""
    banks, notes = read_banks(find_banks(["opening_sizes"]))
    chosen = choose(banks, Choosing(exercises=1), "grid")
    spaces = [prove(exercise).space for _, exercise in chosen]

    def deal(size: int) -> Sitting:
        heads = Heads(title="Grid", date="2026-01-05", group=numbered(size), seed="grid",
                      version="0")  # fmt: skip
        return deal_sitting(heads, banks, notes, chosen, spaces)

    return deal


def texts(pdf: bytes) -> list[str]:
    with Pdf.open(BytesIO(pdf)) as opened:
        return [page_text(page) for page in opened.pages]


def codes_in(told: str, sitting: Sitting) -> list[str]:
    """The sitting's codes in the order in which the grid tells them, a repeat left out."""
    found = sorted((told.index(paper.code), paper.code) for paper in sitting.papers)
    return [code for _, code in found]


@pytest.mark.parametrize("size", [2, 3, 4, 7])
def test_each_learner_stands_on_the_grid_once_and_in_order(class_of, monkeypatch, size) -> None:
    monkeypatch.setattr(workers, "GRID_LEARNERS", 3)
    sitting = class_of(size)
    pdf = print_grid(write_sitting(sitting), size)
    told = " ".join(texts(pdf))
    assert codes_in(told, sitting) == [paper.code for paper in sitting.papers]
    assert all(told.count(paper.code) == 1 for paper in sitting.papers)
    with Pdf.open(BytesIO(pdf)) as opened:
        assert "/StructTreeRoot" in opened.Root


def test_a_slice_says_which_learners_it_has(class_of, monkeypatch) -> None:
    monkeypatch.setattr(workers, "GRID_LEARNERS", 3)
    pages = texts(print_grid(write_sitting(class_of(7)), 7))
    assert len(pages) == 3
    for page, span in zip(pages, ("learners 1 to 2 of 7", "learners 3 to 4 of 7", "learners 5 to 7 of 7"), strict=True):
        assert f"Grid: class grid, {span}" in page
    assert "learners 1" not in texts(print_grid(write_sitting(class_of(3)), 3))[0]


def test_the_same_record_gives_the_same_grid_by_one_process_or_two(class_of) -> None:
    text = write_sitting(class_of(GRID_LEARNERS + 1))
    one = print_grid(text, GRID_LEARNERS + 1)
    assert print_grid(text, GRID_LEARNERS + 1) == one
    assert print_grid(text, GRID_LEARNERS + 1, 2) == one


def test_a_class_at_the_bound_is_one_document(class_of) -> None:
    with Pdf.open(BytesIO(print_grid(write_sitting(class_of(GRID_LEARNERS)), GRID_LEARNERS))) as opened:
        assert "/StructTreeRoot" in opened.Root
