"""Portfolio indexes: for each learner of some sittings one sheet and one workbook."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from io import BytesIO
from pathlib import Path
from typing import TYPE_CHECKING

from courseware.database.given_marks import hands
from courseware.database.sample_results import results_of
from courseware.database.sittings import sitting_of
from courseware.database.who_marked import who_marked
from courseware.marking.marks import MarkedPaper
from courseware.papers.compose import compose_paper, read_sources
from courseware.papers.sitting import Sitting
from courseware.quality.portfolio import Known, Marker, items_of, portfolio_sheet, portfolio_workbook
from courseware.settings.settings import Settings
from courseware.words import listed
from courseware.workflows.criteria import mapped
from courseware.workflows.quality import write_both
from courseware.workflows.watch import Tell, Watch

if TYPE_CHECKING:
    from sqlalchemy import Engine


def write_portfolios(
    engine: Engine,
    codes: Sequence[str],
    settings: Settings,
    banks: Sequence[str],
    watch: Watch,
    *,
    names: bool,
    out: Path,
    day: str,
) -> tuple[Path, ...]:
    """Writes the index of every learner of these sittings, by the code of their first paper. Returns the files."""
    found, ordered = mapped(engine, codes, settings, banks)
    papers = sum(len(one.marked) for one in ordered)
    with watch.progress("Pages of papers", papers) as tell:
        pages = dict(
            place for one in ordered for place in _pages(sitting_of(engine, one.sitting.code), one.marked, tell)
        )
    known = Known(pages=pages, marked_by=_marked_by(engine, codes), results=results_of(engine))
    files: list[Path] = []
    with watch.progress("Portfolio indexes", len(found.people)) as tell:
        for person in found.people:
            items = items_of(found, person, known)
            sheet = portfolio_sheet(found, person, items, settings, day, person.name if names else "")
            workbook = portfolio_workbook(found, person, items, day)
            files += write_both(engine, out, f"portfolio-{person.label}-{day}", sheet, workbook, person.codes)
            tell(1)
    return tuple(files)


def _pages(sitting: Sitting, marked: Sequence[MarkedPaper], tell: Tell) -> Iterator[tuple[tuple[str, int], int]]:
    """The page on which each question of each marked paper begins, read back from the paper as it is printed."""
    from courseware.printing.render import paper_pdf

    sources = read_sources(sitting)
    codes = {paper.code for paper in marked}
    for place, paper in enumerate(sitting.papers):
        if paper.code in codes:
            topics = [exercise.topic for exercise in paper.exercises]
            for number, page in question_pages(paper_pdf(compose_paper(sitting, place, sources)), topics):
                yield (paper.code, number), page
            tell(1)


def question_pages(pdf: bytes, topics: Sequence[str]) -> Iterator[tuple[int, int]]:
    """The number of each question with the page that its heading stands on, from 1; none for one without heading."""
    from pikepdf import Pdf

    from courseware.printing.leak_check import page_text

    with Pdf.open(BytesIO(pdf)) as opened:
        texts = [" ".join(page_text(page).split()) for page in opened.pages]
    for number, topic in enumerate(topics, 1):
        heading = re.compile(rf"(?<!\S){number} {re.escape(' '.join(topic.split()))} level \d")
        page = next((place for place, text in enumerate(texts, 1) if heading.search(text)), None)
        if page is not None:
            yield number, page


def _marked_by(engine: Engine, codes: Sequence[str]) -> dict[str, Marker]:
    found: dict[str, Marker] = {}
    for code in codes:
        own = hands(engine, code)
        for paper, by in who_marked(engine, code, "first").items():
            found[paper] = Marker(who=listed(own.get(paper, ())), day=by.day.isoformat())
    return found
