"""What is done with a sitting after it was issued, by the workflows of the commands."""

from __future__ import annotations

from pathlib import Path

import pytest

from courseware.files.sitting_files import paper_file
from courseware.files.sitting_folders import SittingFolder, find_folders, read_folder
from courseware.workflows.class_lists import keep_list
from tests.desk.conftest import Sitter, finished, words


@pytest.fixture
def where(work: Path) -> SittingFolder:
    return find_folders([work / "output"])[0][1]


def names(folder: Path) -> list[str]:
    return [paper.learner.name for paper in read_folder(folder).sitting.papers]


def test_a_learner_joins_and_nobody_elses_paper_changes(client: Sitter, where: SittingFolder) -> None:
    first = where.path / paper_file(where.sitting.papers[0].code)
    before = first.read_bytes()
    form = {"name": " Amina  Diallo ", "reference": "A9", "sheets": "large-18"}
    done = finished(client, client.fill(f"/sittings/{where.sitting.code}/join", form))
    assert "1 paper more; nobody else's changed." in done
    assert "Amina Diallo: print this." in done
    assert names(where.path)[-1] == "Amina Diallo"
    assert first.read_bytes() == before


def test_a_class_list_joins(client: Sitter, where: SittingFolder, work: Path) -> None:
    keep_list(work, b"Name\nAmina Diallo\nMarek Nowak\n", "late.csv")
    assert "2 papers more" in finished(client, client.fill(f"/sittings/{where.sitting.code}/join", {"kept": "late"}))


def test_a_name_is_put_right(client: Sitter, where: SittingFolder) -> None:
    code = where.sitting.papers[1].code
    form = {"paper": code, "name": "Lukas Wojcik", "reference": "A2"}
    assert f"{code} is Lukas Wojcik's now." in finished(
        client, client.fill(f"/sittings/{where.sitting.code}/rename", form)
    )
    assert names(where.path)[1] == "Lukas Wojcik"


def test_one_paper_is_made_again_to_the_byte(client: Sitter, where: SittingFolder, work: Path) -> None:
    code = where.sitting.papers[2].code
    done = finished(client, client.fill(f"/sittings/{where.sitting.code}/again", {"paper": code}))
    assert "Zoë O'Brien-Smythe: print this." in done
    [again] = (work / "output").glob("*-again")
    assert (again / paper_file(code)).read_bytes() == (where.path / paper_file(code)).read_bytes()
    assert "Made again" not in words(client.get(f"/sittings/{where.sitting.code}").text)  # the sitting's own folder


def test_a_retake_is_a_sitting_of_its_own_for_those_ticked(client: Sitter, where: SittingFolder, work: Path) -> None:
    form = {"paper": [paper.code for paper in where.sitting.papers[:2]], "date": "2026-03-02"}
    assert "2 papers made" in finished(client, client.fill(f"/sittings/{where.sitting.code}/retake", form))
    [made] = (work / "output").glob("2026-03-02-retake-*")
    assert names(made) == ["Amara Okafor", "Łukasz Wójcik"]
    assert "a retake" in words(client.get(f"/sittings/{read_folder(made).sitting.code}").text)


def test_another_group_gets_the_same_exercises(client: Sitter, where: SittingFolder, work: Path) -> None:
    keep_list(work, b"Name\nAmina Diallo\n", "year-2.csv")
    form = {"kept": "year-2", "date": "2026-03-02"}
    assert "1 paper made" in finished(client, client.fill(f"/sittings/{where.sitting.code}/like", form))
    [made] = (work / "output").glob("2026-03-02-*-year-2")
    assert names(made) == ["Amina Diallo"]


@pytest.mark.parametrize(
    ("what", "form", "says"),
    [
        ("join", {"name": ""}, "Write a name"),
        ("join", {"name": "x" * 81}, "at most 80 characters"),
        ("join", {"name": "Amina Diallo", "sheets": "huge"}, "not a word for a paper's format"),
        ("rename", {"paper": "x", "name": ""}, "Write a name"),
        ("retake", {"date": "2026-03-02"}, "Tick who takes it again."),
        ("retake", {"paper": "x", "date": "soon"}, "Write the date"),
        ("like", {"kept": "../x"}, "there is no class list"),
        ("again", {"paper": "nobody"}, "no learner of the sitting is called nobody"),
    ],
)
def test_what_cannot_be_is_told_at_once(
    client: Sitter, where: SittingFolder, what: str, form: dict[str, str], says: str
) -> None:
    refused = client.fill(f"/sittings/{where.sitting.code}/{what}", form)
    assert refused.status_code == 422
    assert says in words(refused.text)


def test_a_learner_who_has_a_paper_does_not_join(client: Sitter, where: SittingFolder) -> None:
    form = {"name": "Amara Okafor", "reference": "A1"}
    assert "has the paper" in finished(client, client.fill(f"/sittings/{where.sitting.code}/join", form))
    assert len(names(where.path)) == 4
