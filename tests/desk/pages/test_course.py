"""The course at the desk: laid out, changed by its table, a week's papers begun, two sittings set side by side."""

from __future__ import annotations

from io import BytesIO

import pytest
from openpyxl import load_workbook

from courseware.files.sitting_folders import find_folders
from courseware.workflows.papers_begun import begun
from courseware.workflows.scheme import PLAN
from tests.desk.conftest import Sitter, finished, words

CENTRE = 'course: {starts: "2026-09-07", weeks: 9, topics: [course_gauge]}\n'


@pytest.fixture
def laid_out(client: Sitter) -> Sitter:
    client.desk.centre_file.write_text(CENTRE, encoding="utf-8")
    assert "1 topic over 9 weeks." in finished(client, client.fill("/course/lay-out", {}))
    return client


def test_a_course_that_has_no_weeks_yet_says_what_to_do_first(client: Sitter) -> None:
    assert "First say in Settings when your course begins and how many weeks are taught" in words(
        client.get("/course").text
    )
    client.desk.centre_file.write_text(CENTRE, encoding="utf-8")
    assert "Lay out 9 weeks from 2026-09-07" in words(client.get("/course").text)


def test_the_weeks_are_seen_and_a_week_s_papers_are_begun(laid_out: Sitter) -> None:
    seen = laid_out.get("/course").text
    assert "<svg" in seen
    assert "Course gauge , new: level 1, 4 exercises" in words(seen)
    answer = laid_out.fill("/course/weeks/1", {})
    [(key, papers)] = begun(laid_out.desk.folder)
    assert answer.headers["location"] == f"/papers/{key}/who"
    assert papers.title == "Week 1: Course gauge"
    assert [one.bank for one in papers.picks] == ["course_gauge"] * 4
    assert "has nothing in week 2" in laid_out.done("/course/weeks/2")


def test_a_table_that_was_changed_is_taken_back_and_a_faulty_one_is_not(laid_out: Sitter) -> None:
    file = laid_out.desk.out / f"{PLAN}.xlsx"
    before = file.read_bytes()
    book = load_workbook(file)
    book["Scheme of work"]["A2"] = 2
    changed = BytesIO()
    book.save(changed)
    laid_out.fill("/course/table", {}, files={"table": ("mine.xlsx", changed.getvalue())})
    assert file.read_bytes() == changed.getvalue() != before
    said = laid_out.done("/course/table", {}, files={"table": ("mine.xlsx", b"PK\x03\x04 no workbook")})
    assert "The table was not taken" in said
    assert file.read_bytes() == changed.getvalue()


def test_it_is_laid_out_anew_only_when_that_was_ticked(laid_out: Sitter) -> None:
    file = laid_out.desk.out / f"{PLAN}.xlsx"
    stamp = file.stat().st_mtime_ns
    assert "tick that its changes may go" in laid_out.done("/course/lay-out")
    assert file.stat().st_mtime_ns == stamp
    finished(laid_out, laid_out.fill("/course/lay-out", {"anew": "yes"}))
    assert file.stat().st_mtime_ns > stamp


@pytest.mark.parametrize("topic", ["../secret.yaml", "/etc/passwd", "piers.yaml"])
def test_a_table_opens_no_file_outside_the_tutor_s_own_banks(laid_out: Sitter, topic: str) -> None:
    """`piers.yaml` stands in the folder of work, but not among its banks."""
    file = laid_out.desk.out / f"{PLAN}.xlsx"
    book = load_workbook(file)
    book["Scheme of work"]["E2"] = topic
    book.save(file)
    assert f"there is no topic {topic} in the folder of work" in words(laid_out.get("/course").text)
    laid_out.fill("/course/weeks/1", {})
    assert begun(laid_out.desk.folder) == ()


def test_two_sittings_of_the_same_exercises_and_learners_are_set_side_by_side(client: Sitter) -> None:
    first, second = sorted((one.sitting for one in find_folders([client.desk.out])[0]), key=lambda one: one.date)
    assert "Group B: 2026-01-05 to 2026-02-02" in words(client.get("/course").text)
    said = finished(client, client.fill("/course/distance", {"start": first.code, "end": second.code}))
    assert "0 learners wrote both." in said  # the second is not marked yet
    assert "distance-travelled-" in said
    assert "are not in the folder of work any more" in client.done("/course/distance", {"start": "X", "end": "Y"})


def test_sittings_of_other_learners_are_no_pair(client: Sitter) -> None:
    [second] = [one for one in find_folders([client.desk.out])[0] if one.sitting.date == "2026-02-02"]
    file = second.path / "sitting.json"
    text = file.read_text(encoding="utf-8")
    for paper in second.sitting.papers:
        text = text.replace(f'"{paper.learner.reference}"', f'"Z{paper.learner.reference}"')
    file.write_text(text, encoding="utf-8")
    assert "then the two stand here" in words(client.get("/course").text)
