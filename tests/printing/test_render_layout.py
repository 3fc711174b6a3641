"""How the pages are filled, read back from the PDFs: sides, white space, nothing orphaned, boxes of one width."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np
import pypdfium2
import pytest

from courseware.files.bank_files import read_banks
from courseware.papers.compose import compose_key, compose_paper, read_sources
from courseware.papers.deal import Heads, deal_sitting
from courseware.papers.group import numbered
from courseware.papers.sheets import Paper
from courseware.printing.bind_pdfs import pages_of
from courseware.printing.page_format import A4
from courseware.printing.render import key_pdf, paper_pdf
from courseware.settings.settings import Settings

TOPICS = ("opening_sizes", "course_gauge", "resource_lists")
STRANGE = Path(__file__).parents[1] / "banks" / "good"
_TOP, _FOOT = A4.top, 297.0 - A4.bottom  # mm: between these stands what a page is for
_PER_MM = 2 * 72 / 25.4  # pixels


@dataclass(frozen=True, slots=True, kw_only=True)
class AllTopics:
    paper: Paper
    printed: bytes
    key: bytes


def pages(pdf: bytes) -> Iterator[tuple[pypdfium2.PdfPage, float]]:
    """Each page, and how far down in mm it is filled."""
    for page in pypdfium2.PdfDocument(pdf):
        dark = np.asarray(page.render(scale=2).to_pil().convert("L")) < 128
        text = dark[
            int(_TOP * _PER_MM) : int(_FOOT * _PER_MM), int(A4.left * _PER_MM) : int((210 - A4.right) * _PER_MM)
        ]
        rows = np.flatnonzero(text.any(axis=1))
        yield page, _TOP + (rows.max() if rows.size else 0) / _PER_MM


def well_filled(pdf: bytes) -> None:
    """Little white on the pages before the last, no last page of a line or two, no exercise's heading at a foot."""
    found = list(pages(pdf))
    white = [(_FOOT - down) / (_FOOT - _TOP) for _, down in found[:-1]]
    assert not white or sum(white) / len(white) < 0.25, white
    assert found[-1][1] > _TOP + 15
    for page, down in found:
        foot = page.get_height() - down * 72 / 25.4
        last = page.get_textpage().get_text_bounded(bottom=foot - 3, top=foot + 28)  # the last lines that are filled
        assert re.search(r"level \d · ", last) is None, last


@pytest.fixture(scope="module")
def over_all_topics(composed) -> Callable[[int, str], AllTopics]:
    """One learner's paper of so many exercises over all topics and its key, printed once."""

    @cache
    def made(exercises: int, seed: str) -> AllTopics:
        sitting, sources = composed("", exercises, seed)
        paper = compose_paper(sitting, 0, sources)
        return AllTopics(paper=paper, printed=paper_pdf(paper), key=key_pdf(compose_key(sitting, 0, sources)))

    return made


@pytest.mark.parametrize("topic", TOPICS)
@pytest.mark.parametrize("kind", ["paper_pdf", "key_pdf"])
def test_pages_are_filled_and_nothing_is_orphaned(printed, topic: str, kind: str) -> None:
    well_filled(getattr(printed(topic), kind))


@pytest.mark.parametrize("seed", ["one", "two", "three", *(f"seed {n}" for n in range(10))])
@pytest.mark.parametrize(("exercises", "sides"), [(10, 7), (15, 10)])
def test_all_topics_on_a_paper_take_few_sides_and_the_key_half_as_many_at_most(
    over_all_topics, seed: str, exercises: int, sides: int
) -> None:
    """The key to a template, at true size to be laid over a learner's and nearly half a page high, takes a side more."""
    made = over_all_topics(exercises, seed)
    drawn_in = sum(exercise.drawn_in_place for exercise in made.paper.exercises)
    assert pages_of(made.printed) <= sides
    assert pages_of(made.key) <= sides // 2 + drawn_in
    well_filled(made.printed)


@pytest.mark.parametrize("bank", sorted(path.stem for path in STRANGE.glob("*.yaml")))
def test_a_strangers_bank_is_as_well_filled(space_of, bank: str) -> None:
    [read], notes = read_banks((STRANGE / f"{bank}.yaml",), Settings())
    heads = Heads(title="From afar", date="2026-01-05", group=numbered(1), seed="s", version="0")
    chosen = [(read, exercise) for exercise in read.exercises]
    sitting = deal_sitting(heads, (read,), notes, chosen, [space_of(*pair) for pair in chosen])
    well_filled(paper_pdf(compose_paper(sitting, 0, read_sources(sitting))))


def test_the_first_exercise_begins_on_the_first_page(over_all_topics) -> None:
    for seed in ("one", "two", "three"):
        [first, *_] = pypdfium2.PdfDocument(over_all_topics(10, seed).printed)
        assert re.search(r"level \d · ", first.get_textpage().get_text_bounded())


def test_a_part_stands_on_one_page_with_its_room(over_all_topics) -> None:
    """As many labels as rooms for working on each page."""
    made = over_all_topics(10, "one")
    kinds = {part.label: part.kind for exercise in made.paper.exercises for part in exercise.parts}
    for page, _ in pages(made.printed):
        said = page.get_textpage().get_text_bounded()
        here = [label for label in kinds if re.search(rf"(?m)^{label}\b", said)]
        words = len(re.findall(r"(?m)(?:^|\s)(?:The rule|Working)(?=\s*(?:$|Answer|The rule|Working))", said))
        assert words >= sum(kinds[label] == "number" for label in here)


def test_the_safety_box_is_exactly_as_wide_as_the_boxes_for_answers(over_all_topics) -> None:
    made = over_all_topics(10, "one")
    assert made.paper.exercises[0].safety or made.paper.exercises[1].safety
    [first, *_] = pypdfium2.PdfDocument(made.printed)
    dark = np.asarray(first.render(scale=300 / 72).to_pil().convert("L")) < 128
    inside = dark[:, int(26 * 300 / 25.4) :]
    runs = {}
    for row in inside[int(20 * 300 / 25.4) : int(280 * 300 / 25.4)]:
        places = np.flatnonzero(row)
        if places.size and row.sum() > 0.9 * (A4.wide * 300 / 25.4):  # a rule across the page
            runs[(places.min(), places.max())] = runs.get((places.min(), places.max()), 0) + 1
    lefts, rights = ({run[side] for run in runs} for side in (0, 1))
    assert max(lefts) - min(lefts) <= 5  # pixels of 300 dpi: 0.4 mm, as the pens of the boxes differ
    assert max(rights) - min(rights) <= 5
