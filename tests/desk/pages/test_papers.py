"""The list of what was made and what was begun."""

from __future__ import annotations

from pathlib import Path

from courseware.workflows.papers_begun import begun
from tests.desk.conftest import Sitter, desk_over, words
from tests.desk.making import LENGTH, newly_begun


def test_every_sitting_says_what_is_to_be_done_next(client: Sitter) -> None:
    shown = words(client.get("/papers").text)
    assert "Group B, 2 February 2026 , 4 papers Print the papers; after the session type in the answers." in shown
    assert "Group A, 5 January 2026 , 4 papers Marked:" in shown
    assert shown.index("2 February 2026") < shown.index("5 January 2026")


def test_an_empty_folder_says_what_is_needed(tmp_path: Path) -> None:
    assert "No papers yet" in words(Sitter(desk_over(tmp_path)).come_in().get("/papers").text)


def test_papers_are_begun_and_put_away(client: Sitter, work: Path) -> None:
    answer = client.fill("/papers/begin")
    [(key, _)] = begun(work)
    assert answer.headers["location"] == f"/papers/{key}/who"
    assert "New papers" in words(client.get("/papers").text)
    assert "Put away" in client.done(f"/papers/{key}/away")
    assert begun(work) == ()


def test_papers_begun_say_how_far_they_are(client: Sitter, work: Path) -> None:
    newly_begun(work, title="Piers again", learners=3, picks=(LENGTH,))
    assert "Piers again 1 exercise, 3 learners" in words(client.get("/papers").text)


def test_papers_that_are_not_begun_are_told_in_a_line(client: Sitter) -> None:
    for step in ("who", "exercises", "order", "settings", "ready"):
        shown = client.get(f"/papers/00000000/{step}")
        assert shown.status_code == 422
        assert "these papers are not begun any more" in words(shown.text)
