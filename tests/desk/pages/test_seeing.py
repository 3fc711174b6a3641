"""See: the class picture's own figures on the screen, a starter at one click, one learner, marks confirmed and released."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from courseware.class_report.figures import class_figures
from courseware.class_report.misconceptions import slip_words
from courseware.database.kept_marks import marks_of
from courseware.database.opening import open_record
from courseware.files.sitting_folders import SittingFolder, sitting_folder
from courseware.papers.compose import read_sources
from tests.desk.conftest import Sitter, desk_over, finished, words


@pytest.fixture
def where(work: Path) -> SittingFolder:
    """The sitting that is marked."""
    [folder] = work.glob("output/2026-01-05*")
    return sitting_folder(str(folder))


@pytest.fixture
def at(where) -> str:
    return f"/sittings/{where.sitting.code}"


@pytest.fixture
def figures(where, work: Path):
    engine = open_record(f"sqlite:///{work / 'output/record.sqlite'}")
    marked = marks_of(engine, where.sitting.code, "first")
    engine.dispose()
    return class_figures(where.sitting, marked, slip_words(where.sitting, read_sources(where.sitting)))


def test_the_heat_map_has_the_mark_of_each_paper_and_part(client: Sitter, at: str, figures) -> None:
    html = client.get(f"{at}/picture").text
    rows = re.findall(
        r'<tr><th scope="row"><a href="[^"]*/learners/([^"]*)">.*?</th>(.*?)<td><b>(\d+)</b></td></tr>', html
    )
    assert [code for code, _, _ in rows] == list(figures.codes)
    assert [int(total) for _, _, total in rows] == list(figures.totals)
    for (_, cells, _), marks in zip(rows, figures.marks, strict=True):
        shown = re.findall(r'class="step-(\d)[^"]*">([^<]*)<', cells)
        assert len(shown) == len(marks)
        for (step, text), mark, part in zip(shown, marks, figures.parts, strict=True):
            assert text in {str(mark), "–", "?"}
            assert (step == "0") == (mark == part.of)


def test_what_went_wrong_outcomes_and_spread_stand_below_it(client: Sitter, at: str, figures) -> None:
    text = words(client.get(f"{at}/picture").text)
    for one in figures.misconceptions:
        assert one.words.casefold() in text.casefold()
    assert "How much of each exercise the class got" in text
    assert f"of {figures.of} marks, mean" in text
    assert "all-feedback.pdf" in text
    assert "O'Brien" not in text, "papers go by code"


def test_a_slip_has_its_starter_on_the_whiteboard_and_the_answer_when_asked(
    client: Sitter, at: str, where, figures
) -> None:
    page = client.get(f"{at}/picture").text
    again = [number for number, one in enumerate(figures.misconceptions) if one.again]
    shown = [int(number) for number in re.findall(rf'href="{at}/board/(\d+)" aria-label', page)]
    assert shown == again
    asked = words(client.get(f"{at}/board/0").text)
    answered = words(client.get(f"{at}/board/0?show=answer").text)
    assert "How long" in asked
    assert "Show the answer" in asked
    assert len(answered) > len(asked) - len("Show the answer")
    given = {paper.exercises[0].given["bricks"] for paper in where.sitting.papers}
    assert re.findall(r"A pier is (\d+) bricks long", asked)[0] not in given
    assert "was not seen in the class" in words(client.get(client.get(f"{at}/board/99").headers["location"]).text)


def test_where_nothing_is_in_yet_the_page_says_what_to_do_first(client: Sitter, work: Path, tmp_path: Path) -> None:
    [folder] = work.glob("output/2026-02-02*")
    code = sitting_folder(str(folder)).sitting.code
    assert "Nothing is typed in yet" in words(client.get(f"/sittings/{code}/picture").text)
    paper = sitting_folder(str(folder)).sitting.papers[0].code
    assert "Nothing of this paper is in yet" in words(client.get(f"/sittings/{code}/learners/{paper}").text)
    assert words(client.get("/see").text).count("Piers") == 2
    empty = Sitter(desk_over(tmp_path)).come_in()
    assert "There is nothing to see yet" in words(empty.get("/see").text)


def test_a_learners_page_has_each_part_and_nobody_else(client: Sitter, at: str, where, figures) -> None:
    for place, code in enumerate(figures.codes):
        text = words(client.get(f"{at}/learners/{code}").text)
        own = next(paper for paper in where.sitting.papers if paper.code == code)
        assert f"{figures.totals[place]} of {figures.of}" in text
        assert not any(other.learner.name in text for other in where.sitting.papers if other is not own)
        assert "feedback, to print and hand back" in text
    assert client.get(f"{at}/learners/AAAA").status_code == 404


def written(client: Sitter, at: str, code: str) -> str:
    """What stands in a paper's part 1a."""
    [row] = re.findall(rf'data-paper="{code}".*', client.get(f"{at}/grid").text)
    return str(re.findall(r"<td>([^<]*)</td>", row)[1])


def test_what_was_typed_since_marking_is_in_the_picture_and_said(client: Sitter, at: str, where, figures) -> None:
    assert "marked last" not in words(client.get(f"{at}/picture").text)
    code = figures.codes[0]
    seen = written(client, at, code)
    answer = "1" if seen != "1" else "2"
    client.fill(f"{at}/grid/cell", {"paper": code, "attempt": 1, "part": "1a", "text": answer, "seen": seen})
    assert "since this sitting was marked last" in words(client.get(f"{at}/picture").text)


def test_marks_are_confirmed_released_and_taken_back_with_a_reason(client: Sitter, at: str, where, figures) -> None:
    for number, one in enumerate(re.findall(r'/waiting/([^/"]+)/([^"]+)"', client.get(f"{at}/waiting").text)):
        code, label = one
        page = client.get(f"{at}/waiting/{code}/{label}").text
        looked_at = re.findall(r'name="written" value="([^"]*)"', page)[0]
        client.fill(
            f"{at}/waiting/{code}/{label}/decide", {"written": looked_at, "marks": "0", "reason": f"No {number}"}
        )
    finished(client, client.fill(f"{at}/mark", {}))
    told = client.done(f"{at}/confirm", {})
    assert re.search(r"\d scripts confirmed\.", told)
    code = figures.codes[0]
    assert "1 script released." in client.done(f"{at}/release", {"paper": code})
    assert "This script is released by J. Marsh" in words(client.get(f"{at}/learners/{code}").text)
    cell = {"paper": code, "attempt": 1, "part": "1a", "text": "5", "seen": written(client, at, code)}
    refused = client.fill(f"{at}/grid/cell", cell)
    assert refused.status_code == 422
    assert "are released" in refused.text
    assert "Not taken back" in client.done(f"{at}/take-back", {"paper": code, "reason": " "})
    assert "1 script taken back." in client.done(f"{at}/take-back", {"paper": code, "reason": "Wrong key"})
