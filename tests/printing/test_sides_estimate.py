"""The rough count of sides against papers as they are laid out."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest

from courseware.papers.compose import compose_paper, read_sources
from courseware.papers.sheet_format import read_format
from courseware.printing.page_format import A4, page_for
from courseware.printing.render import paper_pdf
from courseware.printing.sides_estimate import about_blocks, about_sides


@pytest.mark.parametrize(
    ("topic", "exercises", "words", "within"),
    [("opening_sizes", 6, "", 1), ("safe_cutting", 6, "", 1), ("course_gauge", 5, "roomy", 1), ("opening_sizes", 4, "large-18", 3)],
)  # fmt: skip
def test_the_count_is_near_what_is_printed(dealt, topic: str, exercises: int, words: str, within: int) -> None:
    """Rough: a side more or less, in large type a few."""
    sitting = dealt(topic, exercises)
    paper = replace(compose_paper(sitting, 0, read_sources(sitting)), set_as=read_format(words))
    page = page_for(paper.set_as)
    counted = about_sides(
        [about_blocks(one, page) for one in paper.exercises], page, cautions=any(one.safety for one in paper.exercises)
    )
    with pikepdf.open(BytesIO(paper_pdf(paper))) as printed:
        assert abs(counted - len(printed.pages)) <= within


def test_no_exercise_takes_no_side() -> None:
    assert about_sides([], A4, cautions=True) == 0


@pytest.mark.parametrize(
    ("blocks", "words", "sides"),
    [
        ([(100.0,)], "", 1),
        ([(100.0,), (100.0,)], "", 1),  # 46 mm of head, 273 mm of room
        ([(100.0,), (130.0,)], "", 2),
        ([(100.0, 130.0)], "", 2),  # a piece is not broken
        ([(10.0,), (10.0,), (10.0,)], "roomy", 3),
        ([(10.0, 10.0), (10.0,)], "part-a-page", 3),
        ([(600.0,)], "", 4),  # but one higher than a page is
    ],
)
def test_pieces_fill_pages_from_the_head_down(blocks: list[tuple[float, ...]], words: str, sides: int) -> None:
    assert about_sides(blocks, page_for(read_format(words)), cautions=False) == sides


def test_cautions_take_their_room() -> None:
    one = [(200.0,)]
    assert (about_sides(one, A4, cautions=False), about_sides(one, A4, cautions=True)) == (1, 2)
