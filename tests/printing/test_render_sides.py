"""How many sides a paper takes, and when it is set closer; over many seeds in `test_render_layout.py`."""

from __future__ import annotations

import pytest

from courseware.papers.compose import compose_key, compose_paper
from courseware.printing import render
from courseware.printing.bind_pdfs import pages_of
from courseware.printing.page_format import A4
from courseware.printing.render import key_pdf, lay_out_job, most_sides, paper_pdf
from courseware.reports.report import Block, Report, Table


class Pages:
    """A sheet that is laid out on so many pages."""

    def __init__(self, pages: int) -> None:
        self.pages = pages

    def pdf(self) -> bytes:
        return f"{self.pages} pages".encode()


@pytest.mark.parametrize(("exercises", "sides"), [(1, 1), (2, 2), (3, 2), (4, 3), (10, 7), (15, 10)])
def test_a_paper_is_to_take_two_sides_for_three_exercises(exercises: int, sides: int) -> None:
    assert most_sides(exercises) == sides


@pytest.mark.parametrize(("usual", "closer", "taken"), [(7, 6, 7), (8, 7, 7), (8, 8, 8)])
def test_a_paper_is_set_closer_where_it_would_take_more_and_that_saves_a_side(
    composed, monkeypatch, usual: int, closer: int, taken: int
) -> None:
    """Ten exercises on seven sides, on eight that can be seven, and on eight that cannot."""
    sitting, sources = composed("", 10, "one")
    laid = []

    def pages(_, page) -> Pages:
        laid.append(page)
        return Pages(usual if page == A4 else closer)

    monkeypatch.setattr(render, "_lay_out_paper", pages)
    assert paper_pdf(compose_paper(sitting, 0, sources)) == f"{taken} pages".encode()
    assert len(laid) == 1 + (usual > 7)


def test_ten_exercises_take_seven_sides_and_their_key_at_most_half_as_many(composed) -> None:
    sitting, sources = composed("", 10, "one")
    assert pages_of(paper_pdf(compose_paper(sitting, 0, sources))) <= 7
    assert pages_of(key_pdf(compose_key(sitting, 0, sources))) <= 3


@pytest.mark.parametrize(("rows", "sides"), [(42, 1), (60, 2)])
def test_a_long_table_of_a_report_is_set_closer(rows: int, sides: int) -> None:
    """Marks of a paper of forty parts stand on one side; of fewer than thirty rows each has its usual height."""
    table = Table(headings=("Part", "Mark"), rows=tuple((f"{n}a", "1 of 1") for n in range(rows)), widths=(16, 0))
    report = Report(file="marks", title="Marks", blocks=(Block(table=table),))
    assert lay_out_job(report).pages == sides
