"""A sitting goes into the record and comes back the same; its names stand apart from what was issued."""

from __future__ import annotations

import json
from dataclasses import replace

import pytest
from sqlalchemy import select

from courseware.database.connection import reading
from courseware.database.errors import RecordRefuses
from courseware.database.sittings import sitting_of, sittings, take, text_of
from courseware.database.tables import METADATA, PERSON
from courseware.papers.group import Learner
from courseware.papers.sitting_file import write_sitting


@pytest.mark.each_database
def test_a_sitting_comes_back_as_it_went_in(record, sitting) -> None:
    assert sitting_of(record, sitting.code) == sitting
    assert text_of(record, sitting.code) == write_sitting(sitting)


def test_a_sitting_is_taken_in_once(record, sitting, later) -> None:
    assert not take(record, sitting, write_sitting(sitting), at=later(1))
    assert len(sittings(record)) == 1


def test_names_stand_in_one_table_alone(record, sitting) -> None:
    names = {paper.learner.name for paper in sitting.papers}
    with reading(record) as connection:
        for table in METADATA.sorted_tables:
            rows = json.dumps([tuple(row) for row in connection.execute(select(table))], ensure_ascii=False)
            assert {name for name in names if name in rows} == (names if table is PERSON else set()), table.name


def test_another_sitting_under_the_same_code_is_refused(record, sitting, later) -> None:
    other = replace(sitting, title="Another title")
    with pytest.raises(RecordRefuses, match="another sitting under"):
        take(record, other, write_sitting(other), at=later(1))
    fewer = replace(sitting, papers=sitting.papers[:2])
    with pytest.raises(RecordRefuses, match="with other papers"):
        take(record, fewer, write_sitting(fewer), at=later(1))
    assert sitting_of(record, sitting.code) == sitting


@pytest.mark.each_database
def test_papers_of_learners_who_joined_are_added_after_the_others(record, sitting, later) -> None:
    extra = replace(sitting.papers[0], code="HKAY-FYWQ-Z", learner=Learner(name="Kofi Mensah"))
    grown = replace(sitting, papers=(*sitting.papers, extra))
    assert take(record, grown, write_sitting(grown), at=later(1))
    assert sitting_of(record, sitting.code) == grown
    assert not take(record, grown, write_sitting(grown), at=later(2))
    astray = replace(sitting, papers=(extra, *sitting.papers))
    with pytest.raises(RecordRefuses, match="with other papers"):
        take(record, astray, write_sitting(astray), at=later(3))


def test_a_paper_stands_in_one_sitting(record, sitting, other_sitting, later) -> None:
    mixed = replace(other_sitting, papers=(*other_sitting.papers, sitting.papers[0]))
    with pytest.raises(RecordRefuses, match=f"{sitting.papers[0].code} stands in the record already"):
        take(record, mixed, write_sitting(mixed), at=later(1))
    assert len(sittings(record)) == 1


def test_a_name_put_right_is_added_and_the_old_one_is_kept(record, sitting, later) -> None:
    right = Learner(name="Amara Okafor-Lind", reference="A-0012")
    changed = replace(sitting, papers=(replace(sitting.papers[0], learner=right), *sitting.papers[1:]))
    assert take(record, changed, write_sitting(changed), at=later(1))
    assert sitting_of(record, sitting.code) == changed
    with reading(record) as connection:
        assert connection.scalars(select(PERSON.c.name).where(PERSON.c.paper == sitting.papers[0].code)).all() == [
            "Amara Okafor",
            "Amara Okafor-Lind",
        ]


def test_numbered_papers_have_no_names(record, dealt, later) -> None:
    plain = dealt(exercises=1, seed="numbered")
    numbered = replace(plain, papers=tuple(replace(paper, learner=Learner(name="")) for paper in plain.papers))
    assert take(record, numbered, write_sitting(numbered), at=later(1))
    assert not take(record, numbered, write_sitting(numbered), at=later(2))
    assert sitting_of(record, numbered.code) == numbered


@pytest.mark.each_database
def test_the_list_has_counts_and_no_names(record, sitting, other_sitting, later) -> None:
    retake = replace(other_sitting, retake_of=sitting.code)
    take(record, retake, write_sitting(retake), at=later(1))
    first, second = sittings(record)
    assert (first.code, first.title, first.date, first.papers, first.scripts) == (
        sitting.code, "Setting out", "2026-01-05", 3, 0,
    )  # fmt: skip
    assert (second.retake_of, first.retake_of) == (sitting.code, None)
    assert sitting_of(record, retake.code).retake_of == sitting.code


def test_a_sitting_that_is_not_there_is_told(record) -> None:
    with pytest.raises(RecordRefuses, match="has no sitting AAAA-AAAA-A; take it in"):
        sitting_of(record, "AAAA-AAAA-A")
