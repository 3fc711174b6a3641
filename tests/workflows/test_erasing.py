"""A learner deleted: what would go, line by line, before it goes."""

from __future__ import annotations

import pytest
from sqlalchemy import URL

from courseware.files.bank_files import NotFound
from courseware.workflows.class_lists import keep_list
from courseware.workflows.erasing import erase, found_to_erase, what_goes, what_went
from tests.workflows.conftest import Heard


def test_what_would_go_is_said_and_then_gone(place, heard: Heard) -> None:
    url = URL.create("sqlite", database="output/record.sqlite")
    code = place.sitting.papers[1].code
    with found_to_erase(url, place.path.parent, code, ()) as (engine, found):
        assert what_goes(found)[:2] == (f"To be deleted: 1 paper, {code}", f"  in the record: {code}")
        told = what_went(erase(engine, found, heard))
    assert told[0] == "Deleted in the record: 1 paper."
    assert told[-1].startswith("Class lists, print-outs")
    with pytest.raises(NotFound), found_to_erase(url, place.path.parent, code, ()):
        pass


def test_without_a_record_the_folders_are_looked_into(place, heard: Heard) -> None:
    url = URL.create("sqlite", database="elsewhere/record.sqlite")
    code = place.sitting.papers[0].code
    with found_to_erase(url, place.path.parent, code, ()) as (engine, found):
        assert engine is None
        assert what_goes(found)[1] == "  in the record: nothing"


def test_a_class_list_that_is_kept_is_told_of_and_left_to_the_tutor(place, heard: Heard) -> None:
    work, name = place.path.parent.resolve().parent, place.sitting.papers[1].learner.name
    kept, _ = keep_list(work, f"Name\n{name}\nAmina Diallo\n".encode(), "group-a.csv")
    url = URL.create("sqlite", database="output/record.sqlite")
    with found_to_erase(url, place.path.parent, place.sitting.papers[1].code, ()) as (_, found):
        assert kept.file in found.untouched
        assert str(kept.file) in "\n".join(what_goes(found))
