"""A learner's own is given out whole, and deleted so that no byte of name or code is left in the record."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from courseware.database.errors import RecordRefuses
from courseware.database.history import history
from courseware.database.kept_marks import keep_marks, marks_of
from courseware.database.learner_lookup import whose
from courseware.database.learners import Deleted, delete_papers, export_learner, held
from courseware.database.scripts import enter_scripts, scripts_of
from courseware.database.sittings import sitting_of, sittings, take
from courseware.marking.marks import Decision, Mark, MarkedPaper
from courseware.papers.group import Learner
from courseware.papers.sitting_file import write_sitting


@pytest.fixture
def used(record, sitting, other_sitting, later, written, marked):
    """A record with two sittings, scripts, marks and remarks, one of which names another learner."""
    take(record, other_sitting, write_sitting(other_sitting), at=later(1))
    for one in (sitting, other_sitting):
        scripts = [written(paper, "910", line=place) for place, paper in enumerate(one.papers, 2)]
        remarks = [
            Decision(
                code=one.papers[1].code,
                label="1a",
                marks=0,
                reason="copied from amara okafor, paper " + one.papers[0].code,
            ),
            Decision(code=one.papers[0].code, label="1a", marks=None, reason="", comment="Well set out, Amara."),
        ]
        more = {"assessor": "J. Marsh", "role": "first", "source": "Amara Okafor.xlsx", "at": later(2)}
        enter_scripts(record, one.code, scripts, remarks, **more)
        marks = [marked(paper, why=f"As on paper {one.papers[0].code}.") for paper in one.papers]
        keep_marks(record, one.code, marks, by="J. Marsh", role="first", at=later(3))
    return record


def database(record) -> bytes:
    """Every byte of every file that belongs to the record."""
    file = Path(str(record.url.database))
    return b"".join(path.read_bytes() for path in file.parent.glob(f"{file.name}*"))


def deleted(record, who: str) -> Deleted:
    """What went when whoever is meant was deleted."""
    return delete_papers(record, whose(held(record), who))


@pytest.mark.parametrize("who", ["Amara Okafor", "A-0012", "code"])
def test_no_byte_of_a_deleted_learner_is_left(used, sitting, other_sitting, who) -> None:
    codes = [one.papers[0].code for one in (sitting, other_sitting)]
    words = ["Amara Okafor", "amara okafor", "A-0012", *codes, *(code.replace("-", "") for code in codes)]
    before = database(used)
    assert all(word.encode() in before for word in ("Amara Okafor", "amara okafor", "A-0012", *codes))
    gone = deleted(used, codes[0] if who == "code" else who)
    assert set(gone.papers) == set(codes)
    assert gone.redacted > 0
    after = database(used)
    assert not [word for word in words if word.encode() in after]
    assert "Łukasz Wójcik".encode() in after


@pytest.mark.each_database
def test_everybody_else_stays_as_they_were(used, sitting, other_sitting) -> None:
    before = {one.code: marks_of(used, one.code, "first")[2] for one in (sitting, other_sitting)}
    deleted(used, "Amara Okafor")
    for one in (sitting, other_sitting):
        assert sitting_of(used, one.code) == replace(one, papers=one.papers[1:])
        assert [script.code for script in scripts_of(used, one.code, "first")] == [
            paper.code for paper in one.papers[1:]
        ]
        kept = marks_of(used, one.code, "first")[1]
        assert kept.total == before[one.code].total
        assert {mark.why for mark in kept.marks} == {"As on paper (a deleted learner)."}
    events = history(used, sitting.papers[1].code)
    assert "copied from (a deleted learner), paper (a deleted learner)" in [event.reason for event in events]


def test_old_spellings_of_a_name_go_as_well(record, sitting, later) -> None:
    renamed = Learner(name="Amara Lindqvist", reference="A-0012")
    changed = replace(sitting, papers=(replace(sitting.papers[0], learner=renamed), *sitting.papers[1:]))
    take(record, changed, write_sitting(changed), at=later(1))
    deleted(record, "Amara Okafor")
    assert b"Lindqvist" not in database(record)
    assert b"Okafor" not in database(record)


def test_a_sitting_without_papers_goes_too(used, sitting) -> None:
    for name in ("Amara Okafor", "Łukasz Wójcik", "Zoë O'Brien-Smythe"):
        gone = deleted(used, name)
    assert sitting.code in gone.sittings
    assert sittings(used) == ()
    assert sitting.seed.encode() not in database(used)


def test_a_name_in_a_title_is_told(record, dealt, later) -> None:
    plain = dealt(exercises=1, seed="a third seed")
    retake = replace(plain, title="Retake for Łukasz Wójcik")
    take(record, retake, write_sitting(retake), at=later(1))
    gone = deleted(record, retake.papers[1].code)
    assert gone.still == (f"the title of the sitting {retake.code}",)


def test_a_name_that_is_a_word_of_the_trade_spoils_no_remark(record, dealt, later, written) -> None:
    plain = dealt(exercises=1, seed="a fourth seed")
    mason = replace(plain.papers[0], learner=Learner(name="Mason", reference="1125"))
    sitting = replace(plain, papers=(mason, *plain.papers[1:]))
    take(record, sitting, write_sitting(sitting), at=later(1))
    remark = Decision(code=plain.papers[1].code, label="1a", marks=0, reason="a mason would say 1125")
    more = {"assessor": "J. Marsh", "role": "first", "source": "s.csv", "at": later(2)}
    enter_scripts(record, sitting.code, [written(plain.papers[1], "1125")], [remark], **more)
    assert deleted(record, "Mason").redacted == 0
    assert "a mason would say 1125" in [event.reason for event in history(record, plain.papers[1].code)]


def test_a_name_typed_into_anothers_answer_is_redacted_there_too(record, dealt, later, written) -> None:
    plain = dealt(exercises=1, seed="a fifth seed")
    named = replace(plain.papers[0], learner=Learner(name="Ife Adeyemi"))
    sitting = replace(plain, papers=(named, *plain.papers[1:]))
    take(record, sitting, write_sitting(sitting), at=later(1))
    first, second = sitting.papers[:2]
    typed = f"see {first.learner.name}, {first.code}"
    enter_scripts(
        record,
        sitting.code,
        [written(second, typed)],
        [],
        assessor="J. Marsh",
        role="first",
        source="s.csv",
        at=later(2),
    )
    label = second.parts[0].label
    mark = Mark(label=label, marks=0, of=1, how="asked", why="Not read.", written=typed)
    keep_marks(
        record,
        sitting.code,
        [MarkedPaper(code=second.code, status="", marks=(mark,))],
        by="J. Marsh",
        role="first",
        at=later(3),
    )
    deleted(record, first.learner.name)
    assert first.learner.name.encode() not in database(record)
    assert first.code.encode() not in database(record)
    [script] = scripts_of(record, sitting.code, "first")
    assert "see (a deleted learner), (a deleted learner)" in script.cells.values()


def test_nobody_is_deleted_by_half_a_name(used) -> None:
    before = database(used)
    with pytest.raises(RecordRefuses, match="no learner goes by Amara"):
        deleted(used, "Amara")
    assert database(used) == before


@pytest.mark.each_database
def test_an_export_has_everything_of_the_learner_and_nothing_of_others(used, sitting, other_sitting) -> None:
    data = export_learner(used, "A-0012")
    text = json.dumps(data, ensure_ascii=False)
    assert {paper["code"] for paper in data["papers"]} == {one.papers[0].code for one in (sitting, other_sitting)}
    first = next(paper for paper in data["papers"] if paper["sitting"]["code"] == sitting.code)
    assert first["names"][0]["name"] == "Amara Okafor"
    assert next(iter(first["scripts"][0]["cells"].values())) == "910"
    assert len(first["marks"]) == len(first["scripts"][0]["cells"])
    assert [one["comment"] for one in first["decisions"]] == ["Well set out, Amara."]
    assert [event["what"] for event in first["history"]][:2] == ["paper", "script"]
    assert len(first["issued"]) == 2
    for other in sitting.papers[1:]:
        assert other.learner.name not in text
        assert other.code not in text
    assert sitting.seed not in text
