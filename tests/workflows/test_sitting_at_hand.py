"""A sitting's folder as a tutor meets it."""

from __future__ import annotations

from courseware.files.record_location import opened, record_url
from courseware.files.sitting_files import MARKED, SETTLE, paper_file
from courseware.files.sitting_folders import read_folder
from courseware.workflows.sitting_at_hand import next_step, sitting_at_hand
from tests.piers_sitting import fill, run


def test_every_file_is_there_with_what_it_is_for_and_its_sides(piers_sitting) -> None:
    found = sitting_at_hand(read_folder(piers_sitting))
    assert [one.title for one in (*found.for_learners, *found.for_tutor)] == [
        "All papers", "All keys", "Class grid", "Marking sheet",
    ]  # fmt: skip
    assert [one.sides is None for one in found.for_tutor] == [False, False, True]
    assert [(one.name, one.reference, one.sides) for one in found.learners][:2] == [
        ("Amara Okafor", "A1", 1), ("Łukasz Wójcik", "A2", 1),
    ]  # fmt: skip
    assert all(one.paper and one.key and not one.word for one in found.learners)
    assert (found.lost, found.named, found.marked, found.on_a_job) == (0, True, False, False)


def test_what_is_gone_or_damaged_is_not_offered(piers_sitting) -> None:
    where = read_folder(piers_sitting)
    first, second = where.sitting.papers[:2]
    (piers_sitting / paper_file(first.code)).unlink()
    (piers_sitting / paper_file(second.code)).write_bytes(b"no PDF")
    found = sitting_at_hand(where)
    assert [one.paper is None for one in found.learners] == [True, False, False, False]
    assert (found.lost, found.learners[1].sides) == (1, None)
    assert next_step(where) == "1 paper no longer in the folder: make them again."


def test_what_is_next_goes_by_what_marking_has_left(piers_sitting) -> None:
    where = read_folder(piers_sitting)
    assert next_step(where).startswith("Print the papers")
    fill(piers_sitting, "sheet.csv", {"status": "absent"})
    assert run("mark", str(piers_sitting), "sheet.csv").exit_code == 0
    assert sitting_at_hand(where).marked
    assert next_step(where) == "Marked: give feedback, look at the class picture."
    with opened(record_url(None, piers_sitting.parent), make=False) as engine:  # three of four have nothing typed in
        assert next_step(where, engine).startswith("Marked but for 3 papers: type them in, or write absent")
    (piers_sitting / MARKED / SETTLE).write_bytes(b"")
    assert next_step(where).startswith("Marked: look at what is still open")
